import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { operatorsKind } from "../record/kinds.ts";
import type { Operators } from "../record/operators.ts";
import { type Cabinet, type Found, readFrom } from "./cabinet.ts";
import { diskTrouble } from "./diskWords.ts";
import { codecOf, durableFile } from "./durableFile.ts";
import { operatorsPath } from "./layout.ts";

const codec = codecOf(operatorsKind);

/** Who may work at a station; absent where people don't sign on. What can't be read is set aside like any other file. */
export const readOperators = (cabinet: Cabinet): Promise<Found<Operators>> =>
  readFrom(cabinet, operatorsPath(cabinet.folder), codec);

export async function writeOperators(cabinet: Cabinet, operators: Operators): Promise<Outcome<void>> {
  try {
    return accepted(await durableFile(operatorsPath(cabinet.folder), codec, cabinet.disk).write(operators));
  } catch (fault) {
    return refused(diskTrouble(fault, "operators.json is not changed"));
  }
}
