import type { DirectionFound } from "../../care/inspection/direction.ts";
import type { CLEANINGS, Look } from "../../record/care.ts";
import type { ITEM_WORDS, RegisterItem } from "../../record/register.ts";
import type { Cloth } from "../../record/sieve.ts";
import { phrase } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";

type Item = (typeof ITEM_WORDS)[RegisterItem["schema"]];
type Name = Cloth | (typeof CLEANINGS)[number] | Look | DirectionFound["direction"] | Item;

/** Names that records keep in English and these places show: here, so that each catalogue has them. */
const NAMES: Readonly<Record<Name, string>> = {
  "woven wire": phrase("woven wire"),
  "perforated plate": phrase("perforated plate"),
  electroformed: phrase("electroformed"),
  brush: phrase("brush"),
  ultrasonic: phrase("ultrasonic"),
  wash: phrase("wash"),
  tap: phrase("tap"),
  light: phrase("light"),
  wrinkles: phrase("wrinkles"),
  tears: phrase("tears"),
  solder: phrase("solder"),
  seat: phrase("seat"),
  warp: phrase("warp"),
  weft: phrase("weft"),
  sieve: phrase("sieve"),
  set: phrase("set"),
  balance: phrase("balance"),
  "check weight": phrase("check weight"),
  "reference material": phrase("reference material"),
};

/** A name of a record in the language of the screens. */
export const nameShown = (name: Name): string => spoken(NAMES[name]);
