import { shortSeal } from "../record/seal.ts";
import type { GivenWay } from "../store/restore.ts";
import { isAdministrator, type StandingThere, standingIn } from "../store/restoreStanding.ts";
import type { Store } from "../store/store.ts";
import { drawable } from "../terminal/sanitise.ts";
import { actorOf } from "./actor.ts";
import { EXIT, ended, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";
import { openForWriting } from "./openForWriting.ts";
import { credentials, type SignerOptions } from "./signer.ts";

const LONGEST_FROM = 200;
const ELSEWHERE = "Nothing was changed; a restore into an empty folder (--data) asks nobody of this station";

/**
 * Has the station that is to give way to a copy agree: where people sign on there, an administrator of that station, not of
 * the copy, and its log tells. One that can't be opened any more is asked by its list of people and its log alone.
 */
export async function giveWay(folder: string, to: GivenWay, options: SignerOptions, io: Io): Promise<Step<void>> {
  const standing = await standingIn(folder);
  if (standing.rule === "required" && standing.list?.signOn !== "required")
    return denied(
      `the station in ${folder} asks people to sign on, but its list of people is gone, can't be read or says otherwise than its log: nobody can prove to be an administrator of it. See sievewright operator recover --help. ${ELSEWHERE}`,
    );
  if (standing.rule === "required" && options.as === undefined)
    return denied(`the station in ${folder} asks people to sign on: add --as INITIALS of an administrator of it`);
  const store = await openForWriting(folder, io, undefined, options);
  if (store.ok) return agreed(store.value, to, options, io);
  return store.ending.code === EXIT.ioError ? unopened(folder, standing, options, io) : store;
}

const denied = (why: string): Step<never> => ended(EXIT.notPermitted, why);

async function agreed(store: Store, to: GivenWay, options: SignerOptions, io: Io): Promise<Step<void>> {
  try {
    const { rule } = store.operators;
    const why = rule === "none" ? null : store.operators.refusal("restore a backup");
    if (why !== null) return denied(why);
    const told = await store.record({
      kind: "finding",
      at: io.now(),
      by: actorOf(store, options, io),
      found: inWords(to),
    });
    return told.ok || rule === "none" ? reached(undefined) : ended(EXIT.ioError, told.reason);
  } finally {
    await store.close();
  }
}

/** Too damaged to be opened, and to be written to: the PIN is proven against its list all the same. */
async function unopened(folder: string, { rule, list }: StandingThere, options: SignerOptions, io: Io) {
  if (rule === "none" || list === null) return reached(undefined);
  const who = await credentials(options, io);
  if (!who.ok) return who;
  if (await isAdministrator(list, who.value)) return reached(undefined);
  return denied(
    `to put a backup in the place of ${folder} takes an administrator of it: this is nobody's initials and PIN who is one. ${ELSEWHERE}`,
  );
}

const inWords = ({ from, head, keptIn }: GivenWay): string =>
  `this station gives way to the backup ${drawable(from).slice(-LONGEST_FROM)} (up to entry ${head.number}, seal ${shortSeal(head.seal)}); it is to be kept as ${drawable(keptIn)}`.slice(
    0,
    400,
  );
