import type { Command } from "commander";
import type { Act } from "./act.ts";
import type { HandoverOptions } from "./handover.ts";

const MORE = `
The page names what is open first: holds, late samples, tests in work; then what the shift did, and where the log ends.
It is drawn up from the log and changes nothing.

Exit codes:
  0   the page was printed or written
  64  wrong use   66  no station in that folder   74  reading or writing failed`;

export function handoverCommand(program: Command, act: Act): void {
  program
    .command("handover")
    .summary("print what a shift hands over")
    .description("Prints the page that a shift hands over to the next one.")
    .option("--shift <which>", "now, last, or a moment in the shift (default: now)")
    .option("--json", "the facts of the page as JSON")
    .option("--out <file>", "write the page to a new file instead")
    .option("--data <folder>", "the station's folder")
    .addHelpText("after", MORE)
    .action((options: HandoverOptions) => act(async (io) => (await import("./handover.ts")).handover(options, io)));
}
