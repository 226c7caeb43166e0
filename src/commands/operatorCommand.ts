import type { Command } from "commander";
import type { Act } from "./act.ts";
import { CODES, DATA, NEW_PIN, operatorChangeCommands, REASON } from "./operatorChangeCommands.ts";
import type { RecoverOptions, StartOptions } from "./operatorStart.ts";
import { type SignerOptions, withSigner } from "./signer.ts";

const RECOVERY = `
Somebody forgot a PIN: an administrator sets a new one with: sievewright operator pin INITIALS --as INITIALS
No administrator knows theirs: use the recovery code that was shown when sign-on was set up. It is used up by this,
and a new one is shown. Wrong codes wait as wrong PINs do.
operators.json is gone, was changed by hand or can't be read: put it back from a backup. Where there is none, --anew
starts a new list with one administrator. No code can be asked for then; the log says for ever that it was done,
and sievewright verify shows it. A retired administrator is not brought back by the code.
${CODES}`;

/** `sievewright operator ...`: who may work at a station, and how they prove it. */
export function operatorCommand(root: Command, act: Act): void {
  const operator = root
    .command("operator")
    .summary("who may work here: sign-on, roles, PINs")
    .description("The people of a station: who may work there, in which role, and whether they sign on with a PIN.");
  for (const add of [list, setup, recover, require]) add(operator, act);
  operatorChangeCommands(operator, act);
}

function list(operator: Command, act: Act): void {
  operator
    .command("list")
    .summary("list the people of a station")
    .description("Lists the people of a station and whether they sign on; of PINs it shows nothing.")
    .option("--json", "print them as JSON")
    .option(...DATA)
    .action((options: { json?: boolean; data?: string }) =>
      act(async (io) => (await import("./operatorList.ts")).operatorList(options, io)),
    );
}

function setup(operator: Command, act: Act): void {
  operator
    .command("setup")
    .summary("turn sign-on on for the first time")
    .description("Makes the first administrator; from here on everybody signs on. Shows a recovery code, once.")
    .argument("<initials>", "the first administrator's")
    .option("--name <name>", "the name to the initials")
    .option(...NEW_PIN)
    .option(...REASON)
    .option(...DATA)
    .addHelpText("after", CODES)
    .action((initials: string, options: StartOptions) =>
      act(async (io) => (await import("./operatorStart.ts")).operatorSetup(initials, options, io)),
    );
}

function recover(operator: Command, act: Act): void {
  operator
    .command("recover")
    .summary("when PINs or the list of people are lost")
    .description(
      "Gives an administrator a new PIN by the recovery code, or starts a new list where the old one is gone.",
    )
    .argument("<initials>", "the administrator's")
    .option("--code-file <file>", "take the recovery code from this file (or set SIEVEWRIGHT_RECOVERY_CODE)")
    .option("--anew", "start a new list: operators.json is gone or not as logged, and no backup has it")
    .option("--name <name>", "the name to the initials, for a new list")
    .option(...NEW_PIN)
    .option(...REASON)
    .option(...DATA)
    .addHelpText("after", RECOVERY)
    .action((initials: string, options: RecoverOptions) =>
      act(async (io) => (await import("./operatorStart.ts")).operatorRecover(initials, options, io)),
    );
}

function require(operator: Command, act: Act): void {
  withSigner(operator.command("require"))
    .summary("turn sign-on on again, or off")
    .description("Declares whether people sign on here; the log keeps it. Takes an administrator's PIN.")
    .argument("<on|off>")
    .option(...REASON)
    .option(...DATA)
    .addHelpText("after", CODES)
    .action((rule: string, options: SignerOptions & { data?: string; reason?: string }) =>
      act(async (io) => (await import("./operatorStart.ts")).operatorRequire(rule, options, io)),
    );
}
