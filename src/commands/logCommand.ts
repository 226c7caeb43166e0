import { type Command, Option } from "commander";
import type { Act } from "./act.ts";
import type { LogOptions } from "./log.ts";

const MORE = `
Times are production days (2026-11-24) or moments with their offset (2026-11-24T03:12:05+01:00), both ends included.

Exit codes:
  0   everything asked for was printed
  1   some days could not be read and are missing; standard error says which
  64  wrong use   66  no station in that folder   74  reading or writing failed`;

export function logCommand(program: Command, act: Act): void {
  program
    .command("log")
    .summary("print recorded entries, newest last")
    .description("Prints the recorded entries, newest last.")
    .addOption(new Option("--json", "one JSON object a line, as recorded").conflicts("csv"))
    .option("--csv", "one row an entry as CSV, for a spreadsheet")
    .option("--product <code>", "only of this product")
    .option("--lot <lot>", "only of this lot")
    .option("--since <time>", "only from then on")
    .option("--until <time>", "only up to then")
    .option("--data <folder>", "the station's folder")
    .addHelpText("after", MORE)
    .action((options: LogOptions) => act(async (io) => (await import("./log.ts")).log(options, io)));
}
