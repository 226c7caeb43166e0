import type { Command } from "commander";
import type { Act } from "./act.ts";
import type { SievesOptions } from "./sievesRegister.ts";

const MORE = `
Without an aperture the register of the station is printed; --due only what is due, overdue, out of service, or has
something that is to be done about it: grains caught in a mesh, wear, a balance that moved. --suspects looks at the
latest 40 tests of each product and tells which sieve does not fit its neighbours, with its effective aperture.

An aperture is written as it stands on the sieve: 600 um, 0.6 mm, No. 30, 3/8 in. (a bare number from 20 is um).
Each figure is told as seen in a publication, recalled, or computed: compare with your copy of the standard.

Exit codes:
  0   printed, whatever is due
  1   printed, but something could not be read and is missing; standard error says what
  64  wrong use   65  not an aperture, and why   66  no station in that folder, or no such product   74  reading failed`;

export function sievesCommand(program: Command, act: Act): void {
  program
    .command("sieves")
    .summary("list the sieves and what is due, or tell what is known of an aperture")
    .description("Lists what is registered, or tells names, series, wire and aperture limits of a test sieve.")
    .argument("[aperture...]", "600, 0.6 mm, No. 30, 3/8 in., ...; without it the register")
    .option("--due", "what is due, overdue, out of service, and what to do")
    .option("--suspects", "what routine tests say of the apertures")
    .option("--product <code>", "with --suspects: by the tests of this product")
    .option("--json", "print it as JSON")
    .option("--data <folder>", "the station's folder")
    .addHelpText("after", MORE)
    .action((aperture: string[], options: SievesOptions) =>
      act(async (io) => (await import("./sieves.ts")).sieves(aperture.join(" "), options, io)),
    );
}
