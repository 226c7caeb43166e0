import type { Command } from "commander";
import type { Act } from "./act.ts";

const MORE = `
An aperture is written as it stands on the sieve: 600 um, 0.6 mm, No. 30, 3/8 in. (a bare number from 20 is um).
Each figure is told as seen in a publication, recalled, or computed: compare with your copy of the standard.

Exit codes:
  0   described
  64  wrong use   65  not an aperture, and why`;

export function sievesCommand(program: Command, act: Act): void {
  program
    .command("sieves")
    .summary("tell what is known of an aperture")
    .description("Tells names, series, wire and aperture limits of a test sieve.")
    .argument("<aperture...>", "600, 0.6 mm, No. 30, 3/8 in., ...")
    .option("--json", "print the description as JSON")
    .addHelpText("after", MORE)
    .action((aperture: string[], options: { json?: boolean }) =>
      act(async (io) => (await import("./sieves.ts")).sieves(aperture.join(" "), options, io)),
    );
}
