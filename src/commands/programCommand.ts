import type { Command } from "commander";
import type { Act } from "./act.ts";
import type { ProductSignerOptions } from "./productSigner.ts";
import { withSigner } from "./signer.ts";

const DATA = ["--data <folder>", "the station's folder"] as const;

/** `sievewright program add|list`. */
export function programCommand(root: Command, act: Act): void {
  const program = root
    .command("program")
    .summary("load and list shaker programs")
    .description("The shaker programs of a station's library; a product names one in its method.");
  withSigner(program.command("add"))
    .summary("check a program file and load it into the library")
    .description(
      "Checks a program file, loads it and tells the log. One that is there is not replaced: a change takes a new code.",
    )
    .argument("<file>", "program file (JSON); - for standard input")
    .option("--by <initials>", "your initials for the log, where nobody signs on (default: your login name)")
    .option(...DATA)
    .action((file: string, options: ProductSignerOptions) =>
      act(async (io) => (await import("./programs.ts")).programAdd(file, options, io)),
    );
  program
    .command("list")
    .summary("list the programs of the library")
    .description("Lists the shaker programs of the library: motion, settings, time, aids.")
    .option("--json", "print them as JSON")
    .option(...DATA)
    .action((options: { json?: boolean; data?: string }) =>
      act(async (io) => (await import("./programs.ts")).programList(options, io)),
    );
}
