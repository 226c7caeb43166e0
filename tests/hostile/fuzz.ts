import fc from "fast-check";
import { afterAll } from "vitest";
import { SEED } from "../seeded.ts";

/** How many times the usual number of inputs: `SIEVEWRIGHT_FUZZ=50 npx vitest run tests/hostile` tries fifty times as many. */
const TIMES = Number(process.env.SIEVEWRIGHT_FUZZ ?? 1);

const tried = new Map<string, number>();
export const inputsTried = (what: string, inputs: number): void => {
  tried.set(what, (tried.get(what) ?? 0) + inputs);
};

export const runsOf = (usual: number): number => Math.ceil(usual * TIMES);

/** Tries a property on so many inputs, or as many times more as is asked for; counts them for the closing line. */
export async function fuzzed<T extends unknown[]>(
  what: string,
  usual: number,
  property: fc.IAsyncProperty<T> | fc.IProperty<T>,
): Promise<void> {
  const run = await fc.check(property as fc.IAsyncProperty<T>, { seed: SEED, numRuns: runsOf(usual) });
  inputsTried(what, run.numRuns);
  if (run.failed) throw new Error(fc.defaultReportMessage(run) ?? "failed");
}

/** Called once by a test file: says at its end what was tried, and with which seed. */
export function tellsWhatWasTried(): void {
  afterAll(() => {
    const total = [...tried.values()].reduce((sum, inputs) => sum + inputs, 0);
    const each = [...tried].map(([what, inputs]) => `${what} ${inputs}`).join(", ");
    console.info(`seed ${SEED}, inputs tried: ${total} (${each})`);
  });
}
