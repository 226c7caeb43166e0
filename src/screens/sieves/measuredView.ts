import type { DirectionFound } from "../../care/inspection/direction.ts";
import type { InspectionFound } from "../../care/inspection/inspect.ts";
import { lengthWords } from "../../care/words.ts";
import { directionFigures } from "../../report/sieveWords.ts";
import type { Role } from "../../terminal/theme.ts";
import { say } from "../../words/say.ts";
import { cells, type Line } from "../line.ts";
import { tabled } from "../sentences.ts";
import type { InspectPlace } from "./places.ts";
import { told } from "./told.ts";

const HEADING = cells([
  { text: "  along", columns: 9, role: "dim" },
  { text: "measured", columns: 9, align: "right", role: "dim" },
  { text: "mean um", columns: 11, align: "right", role: "dim" },
  { text: "off um", columns: 10, align: "right", role: "dim" },
  { text: "  Y", columns: 6, role: "dim" },
  { text: "s um", columns: 8, align: "right", role: "dim" },
  { text: "largest um", columns: 12, align: "right", role: "dim" },
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
    { text: `  ${found.direction}`, columns: 9 },
    { text: `${found.measured}`, columns: 9, align: "right" },
    { text: figures.mean, columns: 11, align: "right" },
    { text: figures.off, columns: 10, align: "right" },
    { text: y.text, columns: 6, role: y.role },
    { text: figures.deviation, columns: 8, align: "right" },
    { text: figures.largest, columns: 12, align: "right" },
    { text: x.text, columns: 6, role: x.role },
  ]);
  return tabled(HEADING, drawn);
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
      : say`Y ${lengthWords(limits.meanUm)} either way for the mean, X ${lengthWords(limits.maxUm)} above for the largest (${limits.figures}; ${limits.founded})`;
  return [
    HEADING,
    ...found.directions.map((one) => directionLine(one, place.sieve.apertureUm)),
    ...told(against, columns, "dim"),
    ...told(above.join("; "), columns, "dim"),
  ];
}
