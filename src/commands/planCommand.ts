import type { Command } from "commander";
import type { Act } from "./act.ts";
import type { PlanOptions } from "./plan.ts";

const MORE = `
A typical result is the mean of the newest tests of the product on this station, or a weighing sheet. The charge named
is the least with which it lies inside each limit by a guard band, with the balance, the sieves, the loss and the count
of grains as they are; how many portions that makes follows from the load limits of the product's procedure.

Exit codes:
  0   the plan was printed; a limit that no charge decides, or that can't be planned for, says why
  1   printed, but some tests could not be read; standard error says which
  64  wrong use   65  bad data
  66  no such product, no station in that folder, or no test to plan from   74  reading or writing failed`;

export function planCommand(program: Command, act: Act): void {
  program
    .command("plan")
    .summary("tell which charge, in how many portions, decides each limit of a product")
    .description("Tells which charge, in how many portions, it takes to judge each limit of a product.")
    .argument("<product>", "a code of the library or a product file")
    .option("--risk <pct>", "chance of a wrong acceptance that is allowed, in % (default: 5)")
    .option("--charge <g>", "what this charge decides (default: that of the tests)")
    .option("--portions <n>", "sieved in so many portions (default: as the sieves take it)")
    .option("--sheet <file>", "weighing sheet of a typical test instead of the station's; - for standard input")
    .option("--json", "the plan as JSON")
    .option("--data <folder>", "the station's folder")
    .addHelpText("after", MORE)
    .action((product: string, options: PlanOptions) =>
      act(async (io) => (await import("./plan.ts")).plan(product, options, io)),
    );
}
