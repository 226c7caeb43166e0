import type { Command } from "commander";
import type { Act } from "./act.ts";
import type { RestoreOptions } from "./restore.ts";
import { withSigner } from "./signer.ts";

const MORE = `
Everything is proven before anything is touched: the manifest, every file's SHA-256, every path, the chain of the log. An
existing station is replaced only with --replace, and is kept beside it under another name. Entries, tests in work,
library files and people that the backup lacks are named, and go only with --despite-newer. Close the station first; after the restore run sievewright verify.
Where the station in place asks people to sign on, --as is an administrator of that station, and its log tells that it gave
way. Where the backup asks too, --as must be one in both; PINs that differ are then asked for one after the other.

Exit codes:
  0   restored, and said so in its log
  64  wrong use, or a station is in the way   65  the backup is no good; nothing was touched
  74  reading or writing failed   77  whoever --as names may not restore, in the backup or in
      the station that is there`;

export function restoreCommand(program: Command, act: Act): void {
  const command = program
    .command("restore")
    .summary("put a station back from a backup")
    .description("Puts a station back from a backup, once the whole backup is proven.")
    .argument("<backup>", "an archive, a backup folder, or the manifest of an automatic copy (backups/copies/...json)")
    .option("--replace", "take the place of the station that is there; it is kept under another name")
    .option("--despite-newer", "even where the station has entries or files that the backup lacks")
    .option("--despite-broken", "even where the log was broken when it was copied")
    .option("--json", "print the result as JSON")
    .option("--data <folder>", "the station's folder");
  withSigner(command)
    .addHelpText("after", MORE)
    .action((backup: string, options: RestoreOptions) =>
      act(async (io) => (await import("./restore.ts")).restore(backup, options, io)),
    );
}
