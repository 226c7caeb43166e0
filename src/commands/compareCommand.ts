import type { Command } from "commander";
import type { Act } from "./act.ts";
import type { CompareOptions } from "./compare.ts";

const MORE = `
A run is the number of a recorded test or a weighing sheet; the first of --working goes with the first of --master, and
so on: the same portion on both, or the halves of a split sample. Differences are working less master, in % passing.

  sievewright compare --working 41 43 45 --master 42 44 46
  sievewright compare --working 41 43 45 --master 12 13 14 --master-data E:/TH-MILL
  sievewright compare --working a1.csv a2.csv --master b1.csv b2.csv --difference 0.5

Ranges and biases hold for all apertures together. "visible" is the mean difference that so many pairs would show nine
times in ten, "n for 1 %" how many pairs a difference of 1 % would take.

Exit codes:
  0   no bias shown   1   a bias at one aperture or more
  2   no bias, but too few pairs to have seen the difference asked about
  64  wrong use   65  bad data, or runs that can't be compared   66  no such test, file or station   74  reading failed`;

export function compareCommand(program: Command, act: Act): void {
  program
    .command("compare")
    .summary("compare a working stack with a master stack, or two stations")
    .description(
      "Compares runs of the same portions on two stacks: differences, their ranges, biases, and what is visible.",
    )
    .requiredOption("--working <runs...>", "runs on the working stack: test numbers or sheets")
    .requiredOption("--master <runs...>", "runs on the master stack, in the same order")
    .option("--difference <pct>", "a difference of interest in % passing (default: 1)")
    .option("--alpha <pct>", "chance of any false bias in % (default: 5)")
    .option("--json", "everything as JSON")
    .option("--data <folder>", "the station's folder")
    .option("--master-data <folder>", "the folder of the station of --master (default: the same)")
    .addHelpText("after", MORE)
    .action((options: CompareOptions) => act(async (io) => (await import("./compare.ts")).compare(options, io)));
}
