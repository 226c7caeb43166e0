import type { Command } from "commander";
import type { Act } from "./act.ts";
import type { ShakerOptions } from "./shaker.ts";

const MORE = `
The stroke is peak to peak (twice the amplitude) in mm, the acceleration is the peak in g. The throw number is that
acceleration over gravity; at the one-period stroke a grain's flight lasts one period of the sieve.

Exit codes:
  0   worked out
  64  wrong use: a number is missing, or can't be`;

export function shakerCommand(program: Command, act: Act): void {
  program
    .command("shaker")
    .summary("work out how a shaker throws")
    .description("Works out stroke, acceleration and throw of a shaker that moves straight up and down.")
    .requiredOption("--frequency-hz <number>", "how often it swings, in Hz")
    .option("--stroke-mm <number>", "stroke peak to peak, in mm")
    .option("--acceleration-g <number>", "peak acceleration in g, in place of the stroke")
    .option("--restate-hz <number>", "also the stroke at this frequency for the same acceleration")
    .option("--json", "print the figures as JSON")
    .addHelpText("after", MORE)
    .action((options: ShakerOptions) => act(async (io) => (await import("./shaker.ts")).shaker(options, io)));
}
