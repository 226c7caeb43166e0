import { takenOverIn } from "../record/takenOver.ts";
import type { TestRecord } from "../record/test.ts";

type Emptied = Pick<TestRecord, "weighings" | "trail"> & { readonly number: number };

/** One weighing of an empty sieve: in which test it was made, and what it said. */
function weighingsOf(test: Emptied): readonly { readonly apertureUm: number; readonly of: string }[] {
  const takenOver = takenOverIn(test);
  return test.weighings.map(({ apertureUm, emptyG }) => {
    const number = takenOver.find((one) => one.apertureUm === apertureUm)?.number ?? test.number;
    return { apertureUm, of: `${apertureUm} in ${number}: ${emptyG}` };
  });
}

/**
 * Which empty masses of each test rest on a weighing that another of these tests rests on as well, since they were taken
 * over: an error of it is the same in all of them and does not make them scatter.
 *
 * @returns apertures in um by the number of the test; tests that share none are not in it
 */
export function sharedEmpties(tests: readonly Emptied[]): ReadonlyMap<number, readonly number[]> {
  const each = tests.map((test) => ({ number: test.number, rows: weighingsOf(test) }));
  const times = new Map<string, number>();
  for (const { of } of each.flatMap(({ rows }) => rows)) times.set(of, (times.get(of) ?? 0) + 1);
  return new Map(
    each.flatMap(({ number, rows }) => {
      const shared = rows.filter(({ of }) => (times.get(of) ?? 0) > 1).map(({ apertureUm }) => apertureUm);
      return shared.length === 0 ? [] : [[number, shared] as const];
    }),
  );
}
