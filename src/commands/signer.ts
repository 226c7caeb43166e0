import type { Command } from "commander";
import type { Credentials } from "../store/operatorsDesk.ts";
import type { Store } from "../store/store.ts";
import { EXIT, ended, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";
import { secret } from "./secret.ts";

/** Who records something from the command line. */
export interface SignerOptions {
  readonly as?: string;
  readonly pinFile?: string;
}

/** Adds the options of every command that records something. */
export const withSigner = (command: Command): Command =>
  command
    .option("--as <initials>", "who does it, where the station asks people to sign on; the PIN is asked for")
    .option("--pin-file <file>", "take the PIN from the first line of this file (or set SIEVEWRIGHT_PIN)");

/** Initials and PIN, the PIN from a file, the environment or the terminal. */
export async function credentials({ as, pinFile }: SignerOptions, io: Io): Promise<Step<Credentials>> {
  if (as === undefined) return ended(EXIT.usage, "this station asks people to sign on: add --as INITIALS");
  const source = { file: pinFile, variable: "SIEVEWRIGHT_PIN", option: "--pin-file", words: `PIN of ${as}` };
  const pin = await secret(source, io);
  return pin.ok ? reached({ initials: as, pin: pin.value }) : pin;
}

/** Signs on where the station asks for it; the store signs off again as it closes. */
export async function signedOn(store: Store, options: SignerOptions, io: Io): Promise<Step<void>> {
  const { rule, trouble } = store.operators;
  if (rule === "none") return reached(undefined);
  if (trouble !== null) return ended(EXIT.notPermitted, trouble);
  const who = await credentials(options, io);
  if (!who.ok) return who;
  const session = await store.signOn(who.value);
  return session.ok ? reached(undefined) : ended(EXIT.notPermitted, session.reason);
}
