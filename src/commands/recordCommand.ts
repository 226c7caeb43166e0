import type { Command } from "commander";
import type { Act } from "./act.ts";
import type { RecordOptions } from "./record.ts";

const MORE = `
Prints the test as it is to be read today, then its original and every version side by side, later entries with their
reasons, and the seals. The number of a correction prints the test that it corrects;
that of a test ended without a result, what had been entered in it. Write the end of the log down
elsewhere: sievewright verify proves against it that nothing up to there was changed.

Exit codes:
  0   printed
  1   printed, but some files could not be read; standard error says which
  64  wrong use   66  no such test, or no station in that folder   74  reading failed`;

export function recordCommand(program: Command, act: Act): void {
  program
    .command("record")
    .summary("print one recorded test with all its versions, for an auditor")
    .description("Prints one recorded test with all its versions, corrections and seals.")
    .argument("<number>", "the entry number of the test")
    .option("--original", "the result as it was recorded, whatever was corrected later")
    .option("--json", "the entries, versions and seals as JSON")
    .option("--data <folder>", "the station's folder")
    .addHelpText("after", MORE)
    .action((number: string, options: RecordOptions) =>
      act(async (io) => (await import("./record.ts")).record(number, options, io)),
    );
}
