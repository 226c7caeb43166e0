import type { Command } from "commander";
import type { Act } from "./act.ts";
import type { ReplicatesOptions } from "./replicates.ts";

const MORE = `
At one station: mean, repeatability s_r and r = 2.8 s_r of every figure, outliers by Grubbs, and whether the tests scatter
as much as the stated uncertainty says. Tests that are void, invalid, of another product or on other sieves are left out.
At several: s_r, s_L, s_R, r and R by ISO 5725-2, outliers by Cochran and Grubbs, Mandel's h and k of every station.

  sievewright replicates 101 102 105
  sievewright replicates --lot 4471-B
  sievewright replicates --lot RR-1 --stations /data/TH-DRY1 /data/TH-MILL
  sievewright replicates --results ring-test.csv     columns station,portion,value (figure, where there are several)

Exit codes:
  0   worked out; a figure that can't be compared says why
  1   printed, but something could not be read; standard error says what
  64  wrong use   65  bad data
  66  no such test, no station in that folder, or fewer than two tests left   74  reading or writing failed`;

export function replicatesCommand(program: Command, act: Act): void {
  program
    .command("replicates")
    .summary("look at repeated tests of one sample together")
    .description("Looks at repeated tests of one sample together: repeatability, outliers, reproducibility.")
    .argument("[tests...]", "entry numbers of recorded tests")
    .option("--lot <lot>", "all tests of this lot instead")
    .option("--product <code>", "of this product, where a lot has several")
    .option("--stations <folders...>", "the same lot at several stations: their folders")
    .option("--results <file>", "results of several stations from a CSV; - for standard input")
    .option("--json", "everything as JSON")
    .option("--data <folder>", "the station's folder")
    .addHelpText("after", MORE)
    .action((tests: string[], options: ReplicatesOptions) =>
      act(async (io) => (await import("./replicates.ts")).replicates(tests, options, io)),
    );
}
