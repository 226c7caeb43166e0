import type { TestRecord } from "../record/test.ts";

/** A recorded test whose empty masses may be taken over, as it reads today. */
export interface EmptiedTest {
  readonly number: number;
  readonly voided: boolean;
  readonly test: TestRecord;
}
