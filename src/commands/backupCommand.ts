import type { Command } from "commander";
import type { Act } from "./act.ts";
import type { BackupOptions } from "./backup.ts";
import { withSigner } from "./signer.ts";

const MORE = `
Works while the station is open elsewhere; then it is not recorded in the log, and says so. Put the copy on another disk.
The index and earlier copies are left out: the index is drawn again from the log. A backup that is there is never replaced.
Where the station asks people to sign on, a copy is made only for somebody who does (--as), and is refused before anything
is copied; only while the station can't be written to, as when it is open elsewhere, it is made without, and says so.

Exit codes:
  0   copied; the log in the copy proves by itself
  1   copied, but the log was broken before or a file could not be read; standard error says which;
      or nobody could sign on where the station asks for it
  64  wrong use   66  no station in that folder   74  the copy could not be made, and nothing was left behind
  77  nobody signed on, or who did may not; nothing was copied`;

export function backupCommand(program: Command, act: Act): void {
  const command = program
    .command("backup")
    .summary("copy the station into one file or a folder")
    .description(
      "Copies the whole station into one archive (FILE.tgz) or a plain folder, with a manifest of every file.",
    )
    .argument("<target>", "a new file ending in .tgz, or a new folder")
    .option("--json", "print the result as JSON")
    .option("--data <folder>", "the station's folder");
  withSigner(command)
    .addHelpText("after", MORE)
    .action((to: string, options: BackupOptions) =>
      act(async (io) => (await import("./backup.ts")).backup(to, options, io)),
    );
}
