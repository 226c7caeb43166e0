import type { DirectionFound } from "../../care/inspection/direction.ts";
import type { InspectionFound } from "../../care/inspection/inspect.ts";
import { lengthWords } from "../../care/words.ts";
import { directionFigures } from "../../report/sieveWords.ts";
import { columnsOf } from "../../terminal/sanitise.ts";
import type { Role } from "../../terminal/theme.ts";
import { figure } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { cells, type Line } from "../line.ts";
import { tabled } from "../sentences.ts";
import { nameShown } from "./names.ts";
import type { InspectPlace } from "./places.ts";
import { told } from "./told.ts";

/** As wide as the longer name of a direction needs it. */
const alongColumns = (): number =>
  Math.max(9, ...[nameShown("warp"), nameShown("weft")].map((name) => columnsOf(name) + 3));

const heading = (): Line =>
  cells([
    { text: `  ${say`along`}`, columns: alongColumns(), role: "dim" },
    { text: say`measured`, columns: 9, align: "right", role: "dim" },
    { text: say`mean um`, columns: 11, align: "right", role: "dim" },
    { text: say`off um`, columns: 10, align: "right", role: "dim" },
    { text: "  Y", columns: 6, role: "dim" },
    { text: say`s um`, columns: 8, align: "right", role: "dim" },
    { text: say`largest um`, columns: 12, align: "right", role: "dim" },
    { text: "  X", columns: 6, role: "dim" },
  ]);

const sign = (within: boolean | null): { readonly text: string; readonly role: Role } =>
  within === null
    ? { text: "  –", role: "dim" }
    : within
      ? { text: "  ✓", role: "pass" }
      : { text: "  ✗", role: "fail" };

function directionLine(found: DirectionFound, nominalUm: number): Line {
  const [y, x] = [sign(found.meanWithinY), sign(found.largestWithinX)];
  const figures = directionFigures(found, nominalUm);
  const drawn = cells([
    { text: `  ${nameShown(found.direction)}`, columns: alongColumns() },
    { text: `${found.measured}`, columns: 9, align: "right" },
    { text: figure(figures.mean), columns: 11, align: "right" },
    { text: figure(figures.off), columns: 10, align: "right" },
    { text: y.text, columns: 6, role: y.role },
    { text: figure(figures.deviation), columns: 8, align: "right" },
    { text: figure(figures.largest), columns: 12, align: "right" },
    { text: x.text, columns: 6, role: x.role },
  ]);
  return tabled(heading(), drawn);
}

/** The measured apertures against the limits, with how well these are founded. */
export function measuredLines(place: InspectPlace, found: InspectionFound, columns: number): Line[] {
  if (found.directions.length === 0) return [];
  const { limits } = found;
  const above = found.directions
    .map((one) => directionFigures(one, place.sieve.apertureUm).aboveZ)
    .filter((words) => words !== "");
  const against =
    limits === null
      ? say`no limits are known for this cloth: nothing is judged`
      : say`Y ${figure(lengthWords(limits.meanUm))} either way for the mean, X ${figure(lengthWords(limits.maxUm))} above for the largest (${spoken(limits.figures)}; ${spoken(limits.founded)})`;
  return [
    heading(),
    ...found.directions.map((one) => directionLine(one, place.sieve.apertureUm)),
    ...told(against, columns, "dim"),
    ...told(above.map(spoken).join("; "), columns, "dim"),
  ];
}
