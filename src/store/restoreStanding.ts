import { type Operators, sameInitials } from "../record/operators.ts";
import type { SignOnRule } from "../record/roles.ts";
import type { Cabinet } from "./cabinet.ts";
import type { Disk } from "./disk.ts";
import { Log } from "./log.ts";
import type { Credentials } from "./operatorsDesk.ts";
import { listInForce } from "./operatorsFile.ts";
import { peopleInLog } from "./operatorsRule.ts";
import { isRight } from "./operatorsVerifier.ts";
import { realDisk } from "./realDisk.ts";

/** Who may do what at a station that may be too damaged to be opened: its list of people, and what its log says. */
export interface StandingThere {
  /** The stricter of what the list and the log say. */
  readonly rule: SignOnRule;
  /** Null where it is not there, can't be read or isn't the one that the log tells of. */
  readonly list: Operators | null;
}

/** Looks without changing anything; needs no station.json. A list that is there and can't be read may have asked for sign-on. */
export async function standingIn(folder: string, disk: Disk = realDisk): Promise<StandingThere> {
  const looking: Cabinet = {
    folder,
    disk,
    problems: [],
    readOnly: () => "only looked at",
    becomeReadOnly: () => undefined,
    refusal: async () => "only looked at",
  };
  const people = await peopleInLog(await Log.open(looking));
  const found = await listInForce(looking, people);
  const list = found.is === "read" ? found.content : null;
  const asked = found.is === "out of reach" || list?.signOn === "required";
  return { rule: asked ? "required" : people.rule, list };
}

/** Whether these are the initials and PIN of an administrator of this list who may sign on. */
export async function isAdministrator({ people }: Operators, { initials, pin }: Credentials): Promise<boolean> {
  const person = people.find((one) => sameInitials(one.initials, initials));
  if (person?.state !== "active" || person.role !== "administrator") return false;
  return isRight(pin, person.pin);
}
