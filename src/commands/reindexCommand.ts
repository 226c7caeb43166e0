import type { Command } from "commander";
import type { Act } from "./act.ts";

export function reindexCommand(program: Command, act: Act): void {
  program
    .command("reindex")
    .summary("draw the index of the log again")
    .description("Draws the index, which lists and trends are read from, again from the log. The log is not touched.")
    .option("--json", "print the result as JSON")
    .option("--data <folder>", "the station's folder")
    .action((options: { json?: boolean; data?: string }) =>
      act(async (io) => (await import("./reindex.ts")).reindex(options, io)),
    );
}
