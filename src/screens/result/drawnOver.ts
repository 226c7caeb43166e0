import type { Assessment } from "../../assess.ts";
import { apertureRows, beyondWords } from "../../report/apertureWords.ts";
import { wrapped } from "../../report/columns.ts";
import { phrase } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line } from "../line.ts";

const OVER = {
  certified: phrase("over certified mean apertures"),
  effective: phrase("over effective apertures by reference material"),
} as const;

const CURVE_OVER = {
  certified: phrase("the curve is drawn over certified mean apertures"),
  effective: phrase("the curve is drawn over effective apertures by reference material"),
} as const;

/** Over which apertures the curve is drawn, in words; nothing for nominal ones. */
export const overWords = ({ apertures }: Assessment): string[] =>
  apertures === undefined ? [] : [spoken(OVER[apertures.choice])];

/** Each sieve with its mean aperture and what it rests on, and what can't be read at nominal apertures. */
export function drawnOverLines({ apertures }: Assessment, columns: number): Line[] {
  if (apertures === undefined) return [];
  const [heading = "", ...rows] = apertureRows(apertures);
  const beyond = beyondWords(apertures).flatMap((text) => wrapped(`? ${spoken(text)}`, columns - 6, "  "));
  return [
    line(`  ${spoken(CURVE_OVER[apertures.choice])}`, "strong"),
    line(`  ${heading}`, "dim"),
    ...rows.map((row) => line(`  ${row}`)),
    ...beyond.map((text) => line(`    ${text}`, "warning")),
  ];
}

const TOLD = ["aperture-unknown", "aperture-order"];

/** Limits at nominal apertures that the curve does not reach, each with its reason; a notice tells what leaves all open. */
export function beyondLimits({ apertures, notices, verdict }: Assessment, columns: number): Line[] {
  if (apertures === undefined || notices.some(({ id }) => TOLD.includes(id))) return [];
  const open = verdict.limits.filter(({ on, result }) => result === "not determinable" && on.includes("Pct@"));
  const reasons = [...new Set(open.flatMap(({ reason }) => reason ?? []))];
  return reasons.flatMap((reason) =>
    wrapped(`? ${spoken(reason)}`, columns - 3, "  ").map((text) => line(`  ${text}`, "warning")),
  );
}
