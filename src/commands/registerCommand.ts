import type { Command } from "commander";
import type { Act } from "./act.ts";
import type { RegisterOptions } from "./register.ts";
import { withSigner } from "./signer.ts";

const MORE = `
Each file holds one item, told by its "schema": sievewright.sieve/1, sievewright.stack/1 (a set of sieves),
sievewright.balance/1, sievewright.checkWeight/1 or sievewright.referenceMaterial/1. The screens ask for the same.
The log keeps every revision; an item that is registered already needs a --reason to be changed.

Exit codes:
  0   registered, or registered like this already
  64  wrong use   65  bad data, or it does not fit the register   66  no such file, no station in that folder
  74  reading or writing failed, or the station is in use   77  not permitted: registering takes somebody of quality`;

export function registerCommand(program: Command, act: Act): void {
  withSigner(program.command("register"))
    .summary("register sieves, sets, balances, check weights, reference materials")
    .description("Checks files, says what is wrong with line and field, and registers what they hold.")
    .argument("<files...>", "files (JSON), one item each; - for standard input")
    .option("--reason <text>", "why an item is changed, for the log")
    .option("--by <initials>", "your initials for the log, where nobody signs on (default: your login name)")
    .option("--json", "what was registered as JSON")
    .option("--data <folder>", "the station's folder")
    .addHelpText("after", MORE)
    .action((files: string[], options: RegisterOptions) =>
      act(async (io) => (await import("./register.ts")).register(files, options, io)),
    );
}
