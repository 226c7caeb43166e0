import type { Command } from "commander";
import type { Act } from "./act.ts";

const MORE = `
Walks the log from its first entry to its last and finds the first one that was changed, dropped or reordered.
Write the head down elsewhere: it proves later that nothing up to it was changed.

Exit codes:
  0   unbroken
  1   broken, and where
  64  wrong use   66  no station in that folder   74  reading or writing failed`;

export function verifyCommand(program: Command, act: Act): void {
  program
    .command("verify")
    .summary("prove that the log is as it was recorded")
    .description("Proves that the log is as it was recorded, or says where it is not.")
    .option("--json", "print the result as JSON")
    .option("--data <folder>", "the station's folder")
    .addHelpText("after", MORE)
    .action((options: { json?: boolean; data?: string }) =>
      act(async (io) => (await import("./verify.ts")).verify(options, io)),
    );
}
