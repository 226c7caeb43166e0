import type { Command } from "commander";
import type { Act } from "./act.ts";
import type { VerifyCommandOptions } from "./verify.ts";

const MORE = `
Walks the log from its first entry to its last and finds the first one that was changed, dropped, reordered or cut off.
Also compares products, programs and stacks in the library and the list of people with what the log tells of them.
Write the head down elsewhere (handovers print it): --against proves later that nothing up to it was changed or cut off.

Exit codes:
  0   unbroken, and as on paper
  1   broken, and where; not as on paper; a file that isn't as the log says; or, with --index, an index that is amiss
      (entries made without sign-on although the station asked for it, and library files that are gone, are named, and
      alone don't change the exit code)
  64  wrong use   66  no station in that folder   74  reading or writing failed`;

export function verifyCommand(program: Command, act: Act): void {
  program
    .command("verify")
    .summary("prove that the log is as it was recorded")
    .description("Proves that the log is as it was recorded, or says where it is not.")
    .option("--against <head>", 'a head from paper: "4413 6fa3 55b3", or with its entry 1234:44136fa355b3')
    .option("--index", "also compare the index of every month with the log")
    .option("--json", "print the result as JSON")
    .option("--data <folder>", "the station's folder")
    .addHelpText("after", MORE)
    .action((options: VerifyCommandOptions) => act(async (io) => (await import("./verify.ts")).verify(options, io)));
}
