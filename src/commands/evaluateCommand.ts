import { type Command, Option } from "commander";
import { BASES, INTERPOLATIONS } from "../record/product.ts";
import type { Act } from "./act.ts";
import type { EvaluateOptions } from "./evaluateOptions.ts";
import { LARGEST_SEED, wholeNumber } from "./wholeNumber.ts";

const MORE = `
The sheet is CSV (aperture_um,empty_g,full_g or aperture_um,net_g, the pan by the word pan) or JSON; masses in g.
A sheet says nothing of its balance or its sieves: the uncertainty counts sieves within the tolerance of the series, what
the product states, and says what is not included. Where the product draws its curve over certified or effective
apertures, the sheet's column "sieve" (serials) and the register of the station in --data tell them.
A net mass below zero by up to 0.01 g counts as zero; by more it is refused.

Exit codes:
  0   pass, or nothing to judge against
  1   fail
  2   borderline; also when limits could not all be determined: such a product has not passed
  3   the test is invalid and proves nothing about the product
  64  wrong use   65  bad data   66  file or product not found   74  reading or writing failed`;

export function evaluateCommand(program: Command, act: Act): void {
  program
    .command("evaluate")
    .summary("assess one weighing sheet and print the result")
    .description("Assesses one weighing sheet and prints the result. The exit code is the verdict.")
    .argument("<sheet>", "weighing sheet, CSV or JSON; - for standard input")
    .option("--product <code|file>", "judge against this product: a code of the library or a product file")
    .addOption(new Option("--basis <mass>", "percentages of the charge or of the recovered total").choices(BASES))
    .addOption(new Option("--interpolate <way>", "how passing % is read between sieves").choices(INTERPOLATIONS))
    .addOption(new Option("--json", "print the whole result as JSON").conflicts("csv"))
    .addOption(new Option("--csv", "print the fractions as CSV"))
    .option("--monte-carlo", "check the uncertainty by draws, and use them where they differ")
    .option("--seed <number>", "seed of the draws; the same seed gives the same draws", wholeNumber(0, LARGEST_SEED))
    .option("--data <folder>", "the station's folder, for its library and its register of sieves")
    .addHelpText("after", MORE)
    .action((sheet: string, options: EvaluateOptions) =>
      act(async (io) => (await import("./evaluate.ts")).evaluate(sheet, options, io)),
    );
}
