import type { EffectiveAperture } from "../../care/effective/effectiveFromTests.ts";
import { apertureText, sizesText } from "../../report/figures.ts";
import type { SuspectReading } from "../../store/suspectReading.ts";
import type { Role } from "../../terminal/theme.ts";
import { dayText } from "../../words/figures.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { apart, cells, type Line } from "../line.ts";
import { tabled } from "../sentences.ts";
import type { SievePlace } from "./places.ts";
import { told } from "./told.ts";

const AGAINST: Readonly<Record<EffectiveAperture["againstY"], { readonly text: string; readonly role: Role }>> = {
  within: { text: phrase("within Y ✓"), role: "pass" },
  "reaches beyond": { text: phrase("range beyond Y ~"), role: "borderline" },
  beyond: { text: phrase("beyond Y ✗"), role: "fail" },
  "not judged": { text: phrase("not judged ?"), role: "dim" },
};

/** What is said of a sieve without a finding, in agreement with its row. */
const UNSUSPECTED: Readonly<Record<EffectiveAperture["againstY"], string>> = {
  within: phrase("this sieve is not suspect: what the tests leave possible lies within Y"),
  "reaches beyond": phrase("nothing speaks against this sieve, but the tests are not sure enough to place it within Y"),
  beyond: phrase("the tests place this sieve beyond Y"),
  "not judged": phrase("this sieve is not suspect; against Y it is not judged"),
};

const heading = (): Line =>
  cells([
    { text: "", columns: 3 },
    { text: say`sieve`, columns: 15, role: "dim" },
    { text: say`nominal`, columns: 9, align: "right", role: "dim" },
    { text: say`sieves like`, columns: 13, align: "right", role: "dim" },
    { text: say`from`, columns: 10, align: "right", role: "dim" },
    { text: say`to`, columns: 10, align: "right", role: "dim" },
    { text: `  ${say`against Y`}`, columns: 18, role: "dim" },
  ]);

function sieveLine(one: EffectiveAperture, serial: string): Line {
  const against = AGAINST[one.againstY];
  const [like = "", from = "", to = ""] = sizesText(
    [one.effectiveUm.determinable ? one.effectiveUm.value : null, one.fromUm, one.toUm],
    1,
  );
  const drawn = cells([
    { text: one.serial === serial ? "▸" : "", columns: 3, role: "strong" },
    apart(one.serial ?? "–", 15, one.serial === serial ? "strong" : "plain"),
    { text: apertureText(one.apertureUm), columns: 9, align: "right" },
    {
      text: like,
      columns: 13,
      align: "right",
      role: one.suspect ? "warning" : "plain",
    },
    { text: from, columns: 10, align: "right" },
    { text: to, columns: 10, align: "right" },
    {
      text: `  ${one.suspect ? say`SUSPECT ! ${against.text.slice(-1)}` : spoken(against.text)}`,
      columns: 18,
      role: one.suspect ? "warning" : against.role,
    },
  ]);
  return tabled(heading(), drawn);
}

/** Which tests it rests on. */
function fromWords({ product, found, testsBefore, rightSince }: SuspectReading): string {
  const compared =
    testsBefore === 0
      ? say`each sieve against its neighbours`
      : say`against ${testsBefore} tests from when the stack was known to be right (${dayText(rightSince ?? "")})`;
  return say`from the latest ${found.tests} valid tests of ${product} on this stack, ${compared}; never changes a result by itself`;
}

function foundLines(reading: SuspectReading, serial: string, columns: number): Line[] {
  const { found, problem } = reading;
  const own = found.sieves.find((one) => one.serial === serial);
  const why =
    own && !own.effectiveUm.determinable
      ? say`this sieve: ${spoken(own.effectiveUm.reason)}`
      : spoken(UNSUSPECTED[own?.againstY ?? "not judged"]);
  const others = found.sieves.filter((one) => one.serial !== serial && one.advice !== null);
  return [
    ...told(fromWords(reading), columns, "dim"),
    heading(),
    ...found.sieves.map((one) => sieveLine(one, serial)),
    [],
    ...(own?.advice ? told(`! ${spoken(own.advice)}`, columns, "warning") : told(why, columns)),
    ...others.flatMap((one) => told(`! ${spoken(one.advice ?? "")}`, columns, "warning")),
    ...(problem === null ? [] : told(say`some tests are missing: ${spoken(problem)}`, columns, "warning")),
    ...told(say`how sure: ${found.notes.map(spoken).join("; ")}`, columns, "dim"),
  ];
}

/** What routine tests say of the apertures of the stack that this sieve stands in. */
export function effectiveLines({ effective, serial }: SievePlace, columns: number): readonly Line[] {
  if (effective === null || effective === "working")
    return told(say`working out what the latest tests say of the apertures: a moment ...`, columns, "dim");
  return effective.ok ? foundLines(effective.value, serial, columns) : told(spoken(effective.reason), columns, "dim");
}
