import { referenceCheck, type SieveChecked } from "../../care/reference/referenceCheck.ts";
import { roundHalfAway } from "../../grading/rounding.ts";
import type { ReferenceCheck, ReferenceMaterial } from "../../record/care.ts";
import type { Determination } from "../../record/determination.ts";
import type { IndexRow } from "../../record/indexRow.ts";
import { apertureText, pctText, sizeText, valueText } from "../../report/figures.ts";
import type { Role } from "../../terminal/theme.ts";
import { dayText, figure, momentText } from "../../words/figures.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { apart, cells, type Line, line, span, windowAround } from "../line.ts";
import { matches } from "../list.ts";
import type { App, Size } from "../place.ts";
import { here } from "../room.ts";
import { listed, tabled } from "../sentences.ts";
import { initialsOf } from "../sign/initials.ts";
import { rowVerdict } from "../words.ts";
import type { ReferencePlace } from "./places.ts";
import { latestRuns, runBefore } from "./referenceHistory.ts";
import { told } from "./told.ts";

/** The materials that match what is typed. */
export const materialsHere = ({ known, filter }: ReferencePlace) =>
  known.register.materials.filter(({ code, name }) => matches(filter, [code, name]));

/** The recorded tests that match what is typed, newest first. */
export const testsHere = ({ rows, filter }: ReferencePlace): readonly IndexRow[] =>
  (rows ?? []).filter((row) =>
    matches(
      filter,
      [row.product, row.lot, row.line, row.at.slice(0, 10), dayText(row.at), row.by],
      [rowVerdict(row).text],
    ),
  );

/** What is typed, and which of the rows there are stand below. */
const find = (typed: string, from: number, shown: number, all: number): Line => [
  span(`  ${say`find`} `, "dim"),
  span(`${typed}▌`, "field"),
  span(shown === all ? "" : `   ${say`${from + 1} to ${from + shown} of ${all}`}`, "dim"),
];

function materialLine({ code, name, points, certificate }: ReferenceMaterial, chosen: boolean): Line {
  const certified = say`${points.length} points of ${dayText(certificate.day)}`;
  const drawn = cells([
    { text: chosen ? "▸" : "", columns: 3, role: "strong" },
    apart(code, 16, "strong"),
    apart(name, 30),
    { text: certified, columns: 29, role: "dim" },
  ]);
  return listed(drawn, chosen, code, [name, certified]);
}

function materialLines(place: ReferencePlace, { columns, rows }: Size): Line[] {
  const materials = materialsHere(place);
  const { from, shown } = windowAround(materials, place.at, Math.max(1, rows - 4));
  const none =
    place.known.register.materials.length === 0
      ? told(
          say`no reference material is registered: Esc, then F3 and file, takes its certificate from a JSON file`,
          columns,
          "warning",
        )
      : told(say`nothing matches`, columns, "dim");
  return [
    line(say`  which material was run?`, "strong"),
    find(place.filter, from, shown.length, materials.length),
    [],
    ...shown.map((one, i) => materialLine(one, from + i === place.at)),
    ...(materials.length === 0 ? none : []),
    ...latestRuns(place, columns),
  ];
}

function testLines(place: ReferencePlace, { columns, rows }: Size): Line[] {
  const tests = testsHere(place);
  const { from, shown } = windowAround(tests, place.at, Math.max(1, rows - 4));
  return [
    line(say`  which recorded test is the run of ${place.material?.code ?? ""}?`, "strong"),
    find(place.filter, from, shown.length, tests.length),
    [],
    ...shown.map((row, i) => {
      const verdict = rowVerdict(row);
      return cells([
        { text: from + i === place.at ? "▸" : "", columns: 3, role: "strong" },
        { text: momentText(row.at), columns: 18 },
        apart(row.product, 12),
        apart(row.lot, 14),
        apart(row.line, 16),
        { text: verdict.text, columns: 14, role: verdict.role },
      ]);
    }),
    ...(place.rows === null ? told(say`reading the log ...`, columns, "dim") : []),
    ...(place.rows !== null && tests.length === 0 ? told(say`no recorded test matches`, columns, "dim") : []),
  ];
}

const RESULTS: Readonly<Record<SieveChecked["result"], { readonly text: string; readonly role: Role }>> = {
  agrees: { text: phrase("agrees ✓"), role: "pass" },
  questionable: { text: phrase("questionable ~"), role: "borderline" },
  disagrees: { text: phrase("DISAGREES ✗"), role: "fail" },
  "not judged": { text: phrase("not judged ?"), role: "dim" },
};

const heading = (): Line =>
  cells([
    { text: `  ${say`sieve`}`, columns: 15, role: "dim" },
    { text: say`found %`, columns: 9, align: "right", role: "dim" },
    { text: say`certified`, columns: 10, align: "right", role: "dim" },
    { text: "En", columns: 7, align: "right", role: "dim" },
    { text: "z", columns: 7, align: "right", role: "dim" },
    { text: `  ${say`result`}`, columns: 17, role: "dim" },
    { text: say`sieves like`, columns: 13, align: "right", role: "dim" },
  ]);

const score = (found: Determination): string => (found.determinable ? figure(roundHalfAway(found.value, 2)) : "–");

function checkedLine(one: SieveChecked): Line {
  const { text, role } = RESULTS[one.result];
  const drawn = cells([
    apart(`  ${one.serial ?? apertureText(one.apertureUm)}`, 15),
    { text: pctText(one.foundPct, 2), columns: 9, align: "right" },
    { text: pctText(one.certifiedPct, 2), columns: 10, align: "right" },
    { text: score(one.en), columns: 7, align: "right" },
    { text: score(one.z), columns: 7, align: "right" },
    { text: `  ${spoken(text)}`, columns: 17, role },
    { text: valueText(one.effectiveUm, 1), columns: 13, align: "right" },
  ]);
  return tabled(heading(), drawn);
}

function rangeWords({ apertureUm, serial, fromUm, toUm, effectiveUm }: SieveChecked): string {
  const name = serial ?? apertureText(apertureUm);
  if (!effectiveUm.determinable) return `${name}: ${spoken(effectiveUm.reason)}`;
  const end = (um: number | null) => (um === null ? say`beyond the certificate` : sizeText(um, 1));
  return say`${name} ${end(fromUm)} to ${end(toUm)}`;
}

/** Each sieve by the certified material, before it is signed. */
export function checkedLines(check: ReferenceCheck, columns: number): Line[] {
  const sieves = referenceCheck(check);
  const unnamed = sieves.every(({ serial }) => serial === undefined);
  return [
    heading(),
    ...sieves.map(checkedLine),
    ...told(say`effective apertures: ${sieves.map(rangeWords).join("; ")}`, columns, "dim"),
    ...told(
      say`En within 1 and z within 2 agree; of 20 right sieves one is questionable by chance; no result is changed`,
      columns,
      "dim",
    ),
    ...(unnamed
      ? told(say`! the test tells no serials: what is recorded joins the life of no sieve`, columns, "warning")
      : []),
  ];
}

/** The flow: the material, the test, what it says, who signs. */
export function referenceBody(app: App, size: Size): readonly Line[] {
  const place = here(app, "reference");
  if (place.step === "material") return materialLines(place, size);
  if (place.step === "test" || place.check === null) return testLines(place, size);
  const signer: Line = [span(`  ${say`signed by`}   `, "strong"), span(`${initialsOf(app, place.typed)}▌`, "field")];
  return [signer, [], ...checkedLines(place.check, size.columns), ...runBefore(place, size.columns)];
}
