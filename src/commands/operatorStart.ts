import type { Outcome } from "../entry/outcome.ts";
import { dataFolder } from "../store/dataFolder.ts";
import type { Recovery } from "../store/operatorsDesk.ts";
import { done, type Ending, EXIT, faulty } from "./ending.ts";
import type { Io } from "./io.ts";
import { newStation } from "./newStation.ts";
import { openForWriting } from "./openForWriting.ts";
import { newPin } from "./operatorChange.ts";
import { secret } from "./secret.ts";
import { credentials, type SignerOptions } from "./signer.ts";
import { stationFolder } from "./stationFolder.ts";

export interface StartOptions {
  readonly name?: string;
  readonly reason?: string;
  readonly newPinFile?: string;
  readonly data?: string;
}

const codePage = (told: string, code: string): string =>
  [
    told,
    "",
    `  recovery code   ${code}`,
    "",
    "Write it down and lock it away: it is shown this once, and it lets an administrator in whose PIN is lost.",
    "",
  ].join("\n");

const ending = (made: Outcome<Recovery>, told: string): Ending =>
  made.ok ? done(codePage(told, made.value.code)) : faulty(EXIT.notPermitted, made.reason);

/** `sievewright operator setup`: the first administrator; sign-on is required from here on. */
export async function operatorSetup(initials: string, options: StartOptions, io: Io): Promise<Ending> {
  const pin = await newPin(options, initials, io);
  if (!pin.ok) return pin.ending;
  const store = await openForWriting(dataFolder(options.data, io.env), io, newStation());
  if (!store.ok) return store.ending;
  const first = { initials, name: options.name ?? initials, pin: pin.value };
  const made = await store.value.operators.setUp(first, options.reason ?? "");
  await store.value.close();
  return ending(made, `sign-on is required at this station; ${initials} is its administrator`);
}

export interface RecoverOptions extends StartOptions {
  readonly codeFile?: string;
  readonly anew?: boolean;
}

const recoveryCode = ({ codeFile }: RecoverOptions, io: Io) =>
  secret({ file: codeFile, variable: "SIEVEWRIGHT_RECOVERY_CODE", option: "--code-file", words: "recovery code" }, io);

/** `sievewright operator recover`: by the recovery code, or with a new list where the old one is gone. */
export async function operatorRecover(initials: string, options: RecoverOptions, io: Io): Promise<Ending> {
  const folder = await stationFolder(options.data, io);
  if (!folder.ok) return folder.ending;
  const code = options.anew ? null : await recoveryCode(options, io);
  if (code !== null && !code.ok) return code.ending;
  const pin = await newPin(options, initials, io);
  if (!pin.ok) return pin.ending;
  const store = await openForWriting(folder.value, io);
  if (!store.ok) return store.ending;
  const { operators } = store.value;
  const who = { initials, pin: pin.value };
  const made =
    code === null
      ? await operators.startAnew(
          { ...who, name: options.name ?? initials },
          options.reason ?? "operators.json was gone",
        )
      : await operators.recover(code.value, who, options.reason ?? "PIN lost");
  await store.value.close();
  return ending(
    made,
    code === null
      ? `a new list of people, with ${initials} as its administrator`
      : `${initials} has a new PIN; the old code is used up`,
  );
}

/** `sievewright operator require on|off`, with an administrator's PIN. */
export async function operatorRequire(
  rule: string,
  options: SignerOptions & { readonly data?: string; readonly reason?: string },
  io: Io,
): Promise<Ending> {
  if (rule !== "on" && rule !== "off") return faulty(EXIT.usage, "say on or off");
  const folder = await stationFolder(options.data, io);
  if (!folder.ok) return folder.ending;
  const who = await credentials(options, io);
  if (!who.ok) return who.ending;
  const store = await openForWriting(folder.value, io);
  if (!store.ok) return store.ending;
  const signOn = rule === "on" ? "required" : "none";
  const declared = await store.value.operators.declare(signOn, who.value, options.reason ?? "");
  await store.value.close();
  if (!declared.ok) return faulty(EXIT.notPermitted, declared.reason);
  return done(rule === "on" ? "sign-on is required from now on\n" : "this station runs without sign-on from now on\n");
}
