import type { Command } from "commander";
import type { Act } from "./act.ts";
import { LARGEST_SEED, wholeNumber } from "./wholeNumber.ts";

/** `sievewright demo`. */
export function demoCommand(program: Command, act: Act): void {
  program
    .command("demo")
    .description(
      "open the screens on a fresh station of an invented plant, in a temporary folder that goes afterwards;\n" +
        "without a terminal: print its bench and its last result",
    )
    .option("--data <folder>", "write the demo station into this folder instead (must be empty or absent)")
    .option("--fill <n>", "how many invented tests it holds", wholeNumber(1, 1_000_000))
    .option("--seed <n>", "another invented season; the same seed gives the same one", wholeNumber(0, LARGEST_SEED), 1)
    .option("--no-tour", "without the tour that tells what to press next (Ctrl+P begins and ends it)")
    .action((options) => act(async (io) => (await import("./demo.ts")).demo(options, io)));
}
