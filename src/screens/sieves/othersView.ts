import type { CareKnown } from "../../care/known.ts";
import { hasPassed } from "../../procedure/balance/balanceState.ts";
import { ITEM_WORDS, nameOfItem, type RegisterItem } from "../../record/register.ts";
import { decimalsOf, massText } from "../../report/figures.ts";
import { columnsOf } from "../../terminal/sanitise.ts";
import { dayText } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { apart, cells, type Line, span } from "../line.ts";
import { tabled } from "../sentences.ts";
import { calibrationSpan, calibrationsShown } from "./conditionSpan.ts";
import { nameShown } from "./names.ts";

/** As wide as the longest name of a kind, and of a state, needs it. */
const kindColumns = (): number =>
  Math.max(19, ...Object.values(ITEM_WORDS).map((kind) => columnsOf(nameShown(kind)) + 2));
const stateColumns = (): number => Math.max(13, ...calibrationsShown().map((word) => columnsOf(word) + 2));
const rest = (columns: number): number => Math.max(1, columns - 18 - kindColumns() - stateColumns());

export const otherHeading = (columns: number): Line =>
  cells([
    { text: "", columns: 3 },
    { text: say`name`, columns: 15, role: "dim" },
    { text: say`what`, columns: kindColumns(), role: "dim" },
    { text: say`state`, columns: stateColumns(), role: "dim" },
    { text: say`what is known`, columns: rest(columns), role: "dim" },
  ]);

function checkWords({ conditions }: CareKnown, id: string): string {
  const check = conditions.balances.find((one) => one.id === id)?.lastCheck ?? null;
  if (check === null) return say`never checked`;
  const day = dayText(check.at);
  return hasPassed(check) ? say`checked ${day}: passed ✓` : say`checked ${day}: FAILED ✗`;
}

/** What is known of an item besides its state, the most useful first. */
export function facts(item: RegisterItem, known: CareKnown): string {
  const { conditions } = known;
  switch (item.schema) {
    case "sievewright.balance/1": {
      const calibration = conditions.balances.find(({ id }) => id === item.id)?.text ?? "";
      return say`${spoken(calibration)}; ${checkWords(known, item.id)}; ${item.capacityG} g by ${item.readabilityG} g`;
    }
    case "sievewright.checkWeight/1": {
      const certificate = conditions.weights.find(({ weight }) => weight === item.weight)?.text ?? "";
      return `${massText(item.nominalG, decimalsOf(known.balance.readabilityG))} g ${item.weightClass ?? ""}; ${spoken(certificate)}`;
    }
    case "sievewright.stack/1":
      return say`${item.serials.length} sieves: ${item.serials.join(", ")}`;
    case "sievewright.referenceMaterial/1":
      return say`${item.points.length} certified points, of ${dayText(item.certificate.day)}; ${item.name}`;
    case "sievewright.sieve/1":
      return item.location ?? "";
  }
}

function stateOf(item: RegisterItem, { conditions }: CareKnown) {
  const found =
    item.schema === "sievewright.balance/1"
      ? conditions.balances.find(({ id }) => id === item.id)
      : item.schema === "sievewright.checkWeight/1"
        ? conditions.weights.find(({ weight }) => weight === item.weight)
        : undefined;
  return found === undefined ? span("–", "dim") : calibrationSpan(found);
}

/** One registered thing that is no sieve. */
export function otherLine(item: RegisterItem, known: CareKnown | null, chosen: boolean, columns: number): Line {
  if (known === null) return [];
  const state = stateOf(item, known);
  const drawn = cells([
    { text: chosen ? "▸" : "", columns: 3, role: "strong" },
    apart(nameOfItem(item), 15, chosen ? "strong" : "plain"),
    { text: nameShown(ITEM_WORDS[item.schema]), columns: kindColumns() },
    { text: state.text, columns: stateColumns(), role: state.role },
    { text: facts(item, known), columns: rest(columns) },
  ]);
  return tabled(otherHeading(columns), drawn);
}
