import type { Command } from "commander";
import type { Act } from "./act.ts";
import type { TrendOptions } from "./trend.ts";

const MORE = `
Times are production days (2026-11-24) or moments with their offset (2026-11-24T03:12:05+01:00), both ends included.
Values: d50, percentileUm@50, passingPct@500, retainedPct@500, coarserPct@500, or the id of a value ("sievewright help").
Limits come from the first 25 tests after an adjustment of the line, or are those that were frozen.

Exit codes:
  0   the trend was printed
  1   something could not be read and is missing; standard error says what
  64  wrong use   66  no station in that folder, or no such product   74  reading or writing failed`;

export function trendCommand(program: Command, act: Act): void {
  program
    .command("trend")
    .summary("print the control chart of one value of a product")
    .description("Prints how one value of a product has been running on a line: control chart, capability, drift.")
    .argument("<product>", "code of a product in the library")
    .option("--value <value>", "what to chart (default: d50 where the product limits it, else its first limit)")
    .option("--line <line>", "on which line (default: where the product was tested last)")
    .option("--since <time>", "only from then on")
    .option("--until <time>", "only up to then")
    .option("--last <n>", "so many tests at most, the newest (default: 200; with --since: all)")
    .option("--rules <set>", "western-electric or nelson (default: western-electric)")
    .option("--json", "everything as JSON")
    .option("--data <folder>", "the station's folder")
    .addHelpText("after", MORE)
    .action((product: string, options: TrendOptions) =>
      act(async (io) => (await import("./trend.ts")).trend(product, options, io)),
    );
}
