import { sieveName } from "../care/words.ts";
import type { GradedFraction } from "../grading/grading.ts";
import { sizeFault } from "../grading/standsAt.ts";
import type { Notice } from "./assessment.ts";
import type { DrawnOver, OtherApertures, SieveMean } from "./drawnOver.ts";

const REMEDY: Readonly<Record<OtherApertures, string>> = {
  certified: "tell the serial of each sieve, and register the certificate of each; a test set out afterwards has them",
  effective: "tell the serial of each sieve, and run a reference material on each; a test set out afterwards has them",
};

const nameOf = ({ apertureUm, serial }: SieveMean): string =>
  sieveName({ apertureUm, ...(serial === null ? {} : { serial }) });

/** "the 710 um sieve (S-0710-2): it has no certificate in the register", those of one reason together. */
export function lackingWords(means: readonly SieveMean[]): string | null {
  const lacking = means.filter(({ known }) => known === null);
  const reasons = [...new Set(lacking.map(({ lacks }) => lacks))];
  const told = reasons.map((reason) => {
    const sieves = lacking.filter(({ lacks }) => lacks === reason).map(nameOf);
    return `${sieves.join(", ")}: ${reason}`;
  });
  return told.length === 0 ? null : told.join("; ");
}

function doubts({ of }: DrawnOver): Notice[] {
  const texts = new Map<string, SieveMean[]>();
  for (const mean of of) {
    const doubt = mean.known?.doubt;
    if (doubt !== undefined) texts.set(doubt, [...(texts.get(doubt) ?? []), mean]);
  }
  return [...texts].map(([doubt, sieves]) => ({
    id: "aperture-doubt",
    severity: "warning",
    text: `${sieves.map(nameOf).join(", ")}: ${doubt}; its mean aperture is used all the same`,
    remedy: "have it renewed",
  }));
}

/** What is amiss with the mean apertures that a curve is to be drawn over, and what to do. */
export function apertureNotices(drawn: DrawnOver | null, rows: readonly GradedFraction[]): readonly Notice[] {
  if (drawn === null) return [];
  const { choice, of } = drawn;
  const lacking = lackingWords(of);
  if (lacking !== null) {
    const text = `the curve is drawn over ${choice} mean apertures, and not all are known, so no size is determined: ${lacking}`;
    return [{ id: "aperture-unknown", severity: "warning", text, remedy: REMEDY[choice] }, ...doubts(drawn)];
  }
  const fault = sizeFault({ rows });
  const order: Notice[] =
    fault === null
      ? []
      : [
          {
            id: "aperture-order",
            severity: "warning",
            text: `${fault}, so no size is determined`,
            remedy:
              "look at both sieves and what their mean apertures rest on: one of them is wrong, or they were mixed up",
          },
        ];
  return [...order, ...doubts(drawn)];
}
