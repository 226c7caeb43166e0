import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { operatorsKind } from "../record/kinds.ts";
import type { Operators } from "../record/operators.ts";
import { listSealOf } from "../record/operatorsList.ts";
import { type Cabinet, type Found, found as foundAmiss, readFrom } from "./cabinet.ts";
import { diskTrouble } from "./diskWords.ts";
import { codecOf, durableFile } from "./durableFile.ts";
import { nextOperatorsPath, operatorsPath } from "./layout.ts";
import type { PeopleInLog } from "./operatorsRule.ts";
import { setAside } from "./setAside.ts";

const codec = codecOf(operatorsKind);

/** The list as it lies on disk, or that it isn't the one that the log tells of. */
export type FoundList = Found<Operators> | { readonly is: "not as logged"; readonly why: string };

/** Who may work at a station; absent where people don't sign on. What can't be read is set aside like any other file. */
export const readOperators = (cabinet: Cabinet): Promise<Found<Operators>> =>
  readFrom(cabinet, operatorsPath(cabinet.folder), codec);

const unlike = (number: number, day: string): string =>
  `operators.json was changed outside of Sievewright: it is not the list that entry ${number} of ${day} tells of`;

/**
 * The list that is in force: the one that the log tells of. A change that was cut short after the log had it is carried to
 * its end; a list that was changed in any other way is not used.
 */
export async function listInForce(cabinet: Cabinet, { rule, listed }: PeopleInLog): Promise<FoundList> {
  const found = await readOperators(cabinet);
  const next = await nextList(cabinet);
  const isLogged = (list: Operators): boolean => listSealOf(list) === listed?.sha256;
  if (next !== null && isLogged(next) && !(found.is === "read" && isLogged(found.content)))
    return carriedOut(cabinet, found, next);
  if (next !== null) await dropNext(cabinet);
  if (found.is !== "read" || rule === "none" || listed === null || isLogged(found.content)) return found;
  const why = unlike(listed.number, listed.day);
  foundAmiss(cabinet, why);
  return { is: "not as logged", why };
}

const UNSHOWN =
  "the recovery code of the list of people was made but never shown, since the program was cut short: to have one, keep operators.json elsewhere and begin a new list with sievewright operator recover --anew";

async function carriedOut(cabinet: Cabinet, found: Found<Operators>, next: Operators): Promise<FoundList> {
  const code = found.is === "read" ? found.content.recovery.hash : null;
  if (code !== next.recovery.hash) foundAmiss(cabinet, UNSHOWN);
  if (cabinet.readOnly() === null && (await writeOperators(cabinet, next)).ok) await dropNext(cabinet);
  return { is: "read", content: next };
}

/** A list on its way; one that can't be read never got into the log's words either. */
async function nextList({ folder, disk }: Cabinet): Promise<Operators | null> {
  try {
    return await durableFile(nextOperatorsPath(folder), codec, disk).read();
  } catch {
    return null;
  }
}

export async function dropNext({ folder, disk, readOnly }: Cabinet): Promise<void> {
  if (readOnly() !== null) return;
  await durableFile(nextOperatorsPath(folder), codec, disk)
    .drop()
    .catch(() => undefined); // what the log doesn't tell of is never used
}

const written = async (cabinet: Cabinet, path: string, operators: Operators): Promise<Outcome<void>> => {
  try {
    return accepted(await durableFile(path, codec, cabinet.disk).write(operators));
  } catch (fault) {
    return refused(diskTrouble(fault, "operators.json is not changed"));
  }
};

export const writeOperators = (cabinet: Cabinet, operators: Operators): Promise<Outcome<void>> =>
  written(cabinet, operatorsPath(cabinet.folder), operators);

/** Puts a list beside the one in force, for the log to tell of it first. */
export const writeNext = (cabinet: Cabinet, operators: Operators): Promise<Outcome<void>> =>
  written(cabinet, nextOperatorsPath(cabinet.folder), operators);

/** Keeps a list that is not used under another name. */
export async function keepAside({ folder, disk }: Cabinet): Promise<Outcome<void>> {
  try {
    await setAside(operatorsPath(folder), disk);
    return accepted(undefined);
  } catch (fault) {
    return refused(diskTrouble(fault, "operators.json can't be moved out of the way"));
  }
}
