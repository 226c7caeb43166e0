import type { Command } from "commander";
import type { Act } from "./act.ts";
import type { ProductImportOptions } from "./productImport.ts";
import { withSigner } from "./signer.ts";

const DATA = ["--data <folder>", "the station's folder"] as const;

const DIFF_MORE = `
Examples:
  product diff TH-0510 3 4            two revisions of the library
  product diff TH-0510 4 draft        what the draft changes
  product diff old.json new.json      two product files
  product diff TH-0510 4 new.json     a revision of the library and a file

Exit codes:
  0   done, whether anything is changed or not
  64  wrong use   65  bad data   66  not found   74  reading failed`;

const IMPORT_MORE = `
Looks into products/, programs/ and stacks/ of the folder. A faulty file hinders only itself; nothing that is in the
library is replaced. The log keeps the SHA-256 of each file that is loaded, and where it came from.

Exit codes:
  0   every file is loaded, or was there already
  1   some files are refused; the report says which and why
  64  wrong use   66  no such folder, or nothing in it   74  reading or writing failed, or the station is in use
  77  not permitted`;

/** `sievewright product diff|import`. */
export function productSharedCommands(product: Command, act: Act): void {
  product
    .command("diff")
    .summary("what changed from one revision to another, in words")
    .description("Tells what changed from one revision of a product to another, in words, field by field.")
    .argument("<what...>", "CODE REV REV, FILE FILE, or one of each; draft stands for a revision")
    .option("--json", "print it as JSON")
    .option(...DATA)
    .addHelpText("after", DIFF_MORE)
    .action((what: string[], options: { json?: boolean; data?: string }) =>
      act(async (io) => (await import("./productDiff.ts")).productDiff(what, options, io)),
    );
  withSigner(product.command("import"))
    .summary("load the products, programs and stacks that the plant shares")
    .description("Loads every product, program and stack file of a shared folder that is valid and new.")
    .argument("<folder>", "the plant's shared folder")
    .option("--dry-run", "only say what would be loaded")
    .option("--by <initials>", "who loads them, for the log (default: your login name)")
    .option("--json", "print the report as JSON")
    .option(...DATA)
    .addHelpText("after", IMPORT_MORE)
    .action((folder: string, options: ProductImportOptions) =>
      act(async (io) => (await import("./productImport.ts")).productImport(folder, options, io)),
    );
}
