import { aperturesToMeasure } from "../../care/inspection/howMany.ts";
import type { InspectionFound } from "../../care/inspection/inspect.ts";
import { LOOKS, type Look } from "../../record/care.ts";
import { valueText } from "../../report/figures.ts";
import type { Role } from "../../terminal/theme.ts";
import { figure } from "../../words/figures.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line, span } from "../line.ts";
import type { App, Size } from "../place.ts";
import { initialsOf } from "../sign/initials.ts";
import { foundSoFar, inspectPlace, lookInHand } from "./inspecting.ts";
import { measuredLines } from "./measuredView.ts";
import { nameShown } from "./names.ts";
import type { InspectPlace } from "./places.ts";
import { told } from "./told.ts";

const LOOK_FOR: Readonly<Record<Look, string>> = {
  light: phrase(
    "Hold the dry sieve against even light: no aperture larger, smaller or blocked more than its neighbours.",
  ),
  wrinkles: phrase("Look along the cloth: taut all over, no wrinkle, crease or slack place."),
  tears: phrase(
    "Look at every part of the cloth: no tear, no loose or thinned wire. Wire ends are sharp: fingers off.",
  ),
  solder: phrase("Follow the rim, inside and below: no crack, no gap where grains could stay."),
  seat: phrase("Set it on its neighbour: the frame is round, seats without rocking and lets no dust out."),
};

const NAME_COLUMNS = 12;

function lookLines({ looks }: InspectPlace, now: Look | undefined, columns: number): Line[] {
  return LOOKS.flatMap((look): Line[] => {
    const found = looks[look];
    if (look === now)
      return [
        [
          span(`▸ ${nameShown(look).padEnd(NAME_COLUMNS)}`, "strong"),
          span(`${say`g good`}   ${say`f faulty`}`, "field"),
        ],
        ...told(spoken(LOOK_FOR[look]), columns),
      ];
    const shown = found === "good" ? span(say`good ✓`, "pass") : span(say`FAULTY ✗`, "fail");
    if (found !== undefined) return [[span(`  ${nameShown(look).padEnd(NAME_COLUMNS)}`), shown]];
    return [[span(`  ${nameShown(look).padEnd(NAME_COLUMNS)}`, "dim"), span("")]];
  });
}

const RESULTS: Readonly<Record<InspectionFound["result"], { readonly text: string; readonly role: Role }>> = {
  fit: { text: phrase("FIT ✓"), role: "pass" },
  "not fit": { text: phrase("NOT FIT ✗"), role: "fail" },
  incomplete: { text: phrase("INCOMPLETE ?"), role: "warning" },
};

/** A fault without the name of the sieve in front: the page says which it is. */
function faultShown(fault: string): string {
  const shown = spoken(fault);
  return fault.startsWith("the ") ? shown.replace(/^[^:]*: /, "") : shown;
}

/** The result before it is signed. */
function resultLines(place: InspectPlace, columns: number): Line[] {
  const found = foundSoFar(place);
  const { text, role } = RESULTS[found.result];
  const after =
    found.result === "not fit"
      ? told(
          say`signed like this it is out of service; quarantine (q on its page) keeps its reason beside it`,
          columns,
          "dim",
        )
      : [];
  return [
    [span(`  ${say`result`.padEnd(NAME_COLUMNS)}`, "dim"), span(spoken(text), role)],
    ...found.faults.flatMap((fault) => told(`✗ ${faultShown(fault)}`, columns, "fail")),
    ...found.missing.flatMap((one) => told(`? ${spoken(one)}`, columns, "warning")),
    ...measuredLines(place, found, columns),
    ...found.notes.slice(found.directions.length === 0 ? 0 : 1).flatMap((one) => told(spoken(one), columns, "dim")),
    ...after,
  ];
}

/** How many to measure and how finely, by the standard where it was seen. */
function howMany(place: InspectPlace, found: InspectionFound, columns: number): Line[] {
  const wanted = place.inCloth === null ? found.toMeasure : aperturesToMeasure(place.inCloth);
  const count = wanted.determinable ? say`${wanted.value} in each direction` : spoken(wanted.reason);
  const fine = found.readToUm.determinable
    ? say`read each to ${valueText(found.readToUm)} or finer`
    : spoken(found.readToUm.reason);
  return told(say`to measure: ${count}; ${fine}`, columns, "dim");
}

const latest = (list: readonly number[]): string =>
  list
    .slice(-8)
    .map((um) => figure(`${um}`))
    .join("  ");

function typing(word: string, asks: string, typed: string, columns: number): Line[] {
  return [[span(`  ${word.padEnd(14)}`, "strong"), span(`${typed}▌`, "field")], ...told(asks, columns, "dim")];
}

function apertureLines(place: InspectPlace, columns: number): Line[] {
  const found = foundSoFar(place);
  const { step, warpUm, weftUm, typed } = place;
  const isWarp = step === "warp";
  const list = isWarp ? warpUm : weftUm;
  const asks = isWarp
    ? say`aperture along the warp in um; then Enter alone for the weft; u takes the last one back`
    : say`aperture along the weft in um; then Enter alone goes on; u takes the last one back`;
  return [
    ...typing(`${nameShown(isWarp ? "warp" : "weft")} ${list.length + 1}`, asks, typed, columns),
    ...(list.length === 0 ? [] : told(say`taken: ${latest(list)}`, columns)),
    ...howMany(place, found, columns),
    [],
    ...measuredLines(place, found, columns),
  ];
}

function stepLines(app: App, place: InspectPlace, columns: number): Line[] {
  const { step, typed, sieve } = place;
  switch (step) {
    case "looks":
      return [];
    case "whether":
      return [
        ...told(
          [say`Enter judges by eye alone`, say`m measure apertures`, say`i import them from a file`].join("   "),
          columns,
          "field",
        ),
        ...told(say`measuring is quality's; a look alone counts as an inspection`, columns, "dim"),
      ];
    case "cloth":
      return [
        ...typing(
          say`in the cloth`,
          say`how many apertures the cloth has; Enter if they were not counted`,
          typed,
          columns,
        ),
        ...howMany(place, foundSoFar(place), columns),
      ];
    case "warp":
    case "weft":
      return apertureLines(place, columns);
    case "file":
      return typing(
        say`file`,
        say`CSV with the header warp_um,weft_um; its path, or from the station's folder on`,
        typed,
        columns,
      );
    case "instrument":
      return [
        ...typing(say`measured with`, say`microscope, projector, ...; Enter without`, typed, columns),
        [],
        ...measuredLines(place, foundSoFar(place), columns),
      ];
    case "note":
      return [...typing(say`note`, say`anything besides; Enter for nothing`, typed, columns), []];
    case "sign":
      return [
        [span(say`  inspected ${sieve.serial}, signed by  `, "strong"), span(`${initialsOf(app, typed)}▌`, "field")],
        [],
      ];
  }
}

/** While apertures are measured the looks stand in one line. */
function looksLine({ looks }: InspectPlace): Line {
  const faulty = LOOKS.filter((look) => looks[look] === "faulty");
  const name = `  ${say`by eye`.padEnd(NAME_COLUMNS)}`;
  return faulty.length === 0
    ? line(`${name}${say`good ✓`}`, "pass")
    : [span(name), span(`${say`FAULTY ✗`} ${faulty.map(nameShown).join(", ")}`, "fail")];
}

/** A guided inspection, as far as it has come. */
export function inspectBody(app: App, { columns }: Size): readonly Line[] {
  const place = inspectPlace(app);
  const looking = place.step === "looks" || place.step === "whether";
  const upper = looking ? lookLines(place, lookInHand(place), columns) : [looksLine(place)];
  const asked = [[], ...upper, [], ...stepLines(app, place, columns)];
  const isResult = place.step === "note" || place.step === "sign";
  return isResult ? [...asked, ...resultLines(place, columns)] : asked;
}
