import reference from "../../shared/register/TH-RM1.json" with { type: "json" };
import { certifiedMeanUm } from "../care/apertureChosen.ts";
import { certifiedAt, certifiedCurve } from "../care/reference/certified.ts";
import { type ReferenceCheck, type ReferenceMaterial, ReferenceMaterialSchema } from "../record/care.ts";
import type { NewEntry } from "../record/logEntry.ts";
import type { Sieve } from "../record/sieve.ts";

const DAY_MS = 86_400_000;
const EVERY_MS = 30 * DAY_MS;
const EXPANDED_PCT = 0.6;
/** By how much the mesh widens with wear from one check to the next, as a part of the aperture. */
const WEAR = 0.001;

/** The invented reference sand that the plant publishes. */
export const demoMaterial = (): ReferenceMaterial => ReferenceMaterialSchema.parse(reference);

/** A few hundredths of a per cent that no two runs have in common; always the same for the same run. */
const scatterPct = (apertureUm: number, run: number): number => ((((apertureUm / 5) * (run + 3)) % 11) - 5) / 25;

type Found = ReferenceCheck["found"][number];

/** What the reference sand passes at the real mean aperture of a sieve; nothing where its certificate does not reach that. */
function foundOn(sieve: Sieve, run: number): Found[] {
  const mean = certifiedMeanUm(sieve);
  const realUm = (mean.determinable ? mean.value : sieve.apertureUm) * (1 + WEAR * run);
  const { serial, apertureUm } = sieve;
  const curve = certifiedCurve(demoMaterial());
  const there = certifiedAt(curve, realUm) ?? certifiedAt(curve, apertureUm);
  if (there === null) return [];
  const passed = Math.max(0, Math.min(100, there.passingPct + scatterPct(apertureUm, run)));
  return [{ serial, apertureUm, passingPct: Math.round(passed * 100) / 100, expandedPct: EXPANDED_PCT }];
}

/** Runs of the reference sand on a set: one as the season begins, then one every thirty days of it, oldest first. */
export function demoChecks(
  sieves: readonly Sieve[],
  beginsMs: number,
  untilMs: number,
  moment: (epochMs: number) => string,
): readonly NewEntry[] {
  const runs = Math.max(1, Math.ceil((untilMs - beginsMs) / EVERY_MS));
  return Array.from({ length: runs }, (_, run): NewEntry => {
    const found = sieves.flatMap((sieve) => foundOn(sieve, run));
    const care: ReferenceCheck = { did: "reference check", material: demoMaterial(), found };
    return { kind: "care", at: moment(beginsMs + run * EVERY_MS), by: "SB", care };
  });
}

/** Two runs of entries, each in the order of time, as one. */
export function* inTurn(first: Iterable<NewEntry>, second: readonly NewEntry[]): Generator<NewEntry> {
  const waiting = [...second];
  for (const entry of first) {
    while (waiting[0] !== undefined && Date.parse(waiting[0].at) <= Date.parse(entry.at)) {
      const [next] = waiting.splice(0, 1);
      if (next !== undefined) yield next;
    }
    yield entry;
  }
  yield* waiting;
}
