import type { OperatorChange } from "../record/operatorsList.ts";
import { ROLES, type Role } from "../record/roles.ts";
import type { Store } from "../store/store.ts";
import { done, type Ending, EXIT, ended, faulty, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";
import { openForWriting } from "./openForWriting.ts";
import { secret } from "./secret.ts";
import type { SignerOptions } from "./signer.ts";
import { stationFolder } from "./stationFolder.ts";

export interface ChangeOptions extends SignerOptions {
  readonly data?: string;
  readonly reason?: string;
  readonly newPinFile?: string;
}

/** A PIN that is to be set, never an argument. */
export const newPin = (
  { newPinFile }: { readonly newPinFile?: string },
  initials: string,
  io: Io,
): Promise<Step<string>> =>
  secret(
    {
      file: newPinFile,
      variable: "SIEVEWRIGHT_NEW_PIN",
      option: "--new-pin-file",
      words: `new PIN of ${initials}`,
      twice: true,
    },
    io,
  );

export function roleNamed(name: string): Step<Role> {
  const role = ROLES.find((known) => known === name);
  return role === undefined ? ended(EXIT.usage, `${name} is no role: ${ROLES.join(", ")}`) : reached(role);
}

/** Work on the open station of somebody who signed on, where sign-on has been set up. */
async function atStation(options: ChangeOptions, io: Io, work: (store: Store) => Promise<Ending>): Promise<Ending> {
  const folder = await stationFolder(options.data, io);
  if (!folder.ok) return folder.ending;
  const store = await openForWriting(folder.value, io, undefined, options);
  if (!store.ok) return store.ending;
  const ending = await work(store.value);
  await store.value.close();
  return ending;
}

const changed = (change: OperatorChange, options: ChangeOptions, io: Io, told: string): Promise<Ending> =>
  atStation(options, io, async ({ operators }) => {
    const made = await operators.change(change);
    return made.ok ? done(`${told}\n`) : faulty(EXIT.notPermitted, made.reason);
  });

export async function operatorAdd(
  initials: string,
  options: ChangeOptions & { readonly name: string; readonly role: string },
  io: Io,
): Promise<Ending> {
  const role = roleNamed(options.role);
  if (!role.ok) return role.ending;
  const pin = await newPin(options, initials, io);
  if (!pin.ok) return pin.ending;
  const { name, reason = "" } = options;
  const person = { initials, name, role: role.value, pin: pin.value };
  return changed({ event: "added", ...person, reason }, options, io, `${initials} added as ${role.value}`);
}

export async function operatorRole(initials: string, name: string, options: ChangeOptions, io: Io): Promise<Ending> {
  const role = roleNamed(name);
  if (!role.ok) return role.ending;
  const change = { event: "role changed", initials, role: role.value, reason: options.reason ?? "" } as const;
  return changed(change, options, io, `${initials} is ${role.value} from now on`);
}

export async function operatorPin(initials: string, options: ChangeOptions, io: Io): Promise<Ending> {
  const pin = await newPin(options, initials, io);
  if (!pin.ok) return pin.ending;
  const change = { event: "PIN set", initials, pin: pin.value, reason: options.reason ?? "" } as const;
  return changed(change, options, io, `${initials} has a new PIN`);
}

export const operatorRetire = (initials: string, options: ChangeOptions, io: Io): Promise<Ending> =>
  changed({ event: "retired", initials, reason: options.reason ?? "" }, options, io, `${initials} is retired`);

export const operatorReturn = (initials: string, options: ChangeOptions, io: Io): Promise<Ending> =>
  changed({ event: "brought back", initials, reason: options.reason ?? "" }, options, io, `${initials} is back`);

export function operatorIdle(minutes: string, options: ChangeOptions, io: Io): Promise<Ending> {
  return atStation(options, io, async ({ operators }) => {
    const set = await operators.setIdleMinutes(/^\d{1,4}$/.test(minutes) ? Number(minutes) : 0);
    return set.ok ? done(`signed off after ${minutes} min without a key\n`) : faulty(EXIT.notPermitted, set.reason);
  });
}
