import type { Command } from "commander";
import type { Act } from "./act.ts";
import type { ProductAddOptions } from "./productAdd.ts";
import { productDraftCommands } from "./productDraftCommand.ts";
import { productSharedCommands } from "./productSharedCommand.ts";
import type { ProductShowOptions } from "./productShow.ts";
import { withSigner } from "./signer.ts";

const DATA = ["--data <folder>", "the station's folder"] as const;

const MORE = `
A revision never changes once it is loaded: give a change a new revision. A file that is loaded again is left as it is.

Exit codes:
  0   done
  64  wrong use   65  bad data   66  not found   74  reading or writing failed, or the station is in use`;

export function productCommand(program: Command, act: Act): void {
  const product = program
    .command("product")
    .summary("load, list, show, compare, draft and publish products")
    .description("The products of a station's library.");
  withSigner(product.command("add"))
    .summary("check a product file and load it into the library")
    .description("Checks a product file, says what is wrong with line and field, and loads it into the library.")
    .argument("<file>", "product file (JSON); - for standard input")
    .option("--by <initials>", "who loads it, for the log (default: your login name)")
    .option(...DATA)
    .addHelpText("after", MORE)
    .action((file: string, options: ProductAddOptions) =>
      act(async (io) => (await import("./productAdd.ts")).productAdd(file, options, io)),
    );
  product
    .command("list")
    .summary("list the products of the library")
    .description("Lists the products of the library: the revision in force today, those to come, and drafts.")
    .option("--json", "print them as JSON")
    .option(...DATA)
    .action((options: { json?: boolean; data?: string }) =>
      act(async (io) => (await import("./productList.ts")).productList(options, io)),
    );
  product
    .command("show")
    .summary("show one product")
    .description("Shows one product of the library: the revision in force today, or the one asked for.")
    .argument("<code>", "the product's code")
    .option("--revision <number>", "this revision")
    .option("--json", "print it as a product file")
    .option(...DATA)
    .action((code: string, options: ProductShowOptions) =>
      act(async (io) => (await import("./productShow.ts")).productShow(code, options, io)),
    );
  productDraftCommands(product, act);
  productSharedCommands(product, act);
}
