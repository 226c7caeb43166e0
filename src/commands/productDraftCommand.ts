import type { Command } from "commander";
import type { Act } from "./act.ts";
import type { ProductDraftOptions } from "./productDraft.ts";
import type { ProductPublishOptions } from "./productPublish.ts";
import type { ProductSignerOptions } from "./productSigner.ts";
import { withSigner } from "./signer.ts";

const DATA = ["--data <folder>", "the station's folder"] as const;
const BY = ["--by <initials>", "who does it, for the log (default: your login name)"] as const;
const JSON_OUT = ["--json", "print it as JSON"] as const;

const EXITS = `
Exit codes:
  0   done
  64  wrong use   65  refused   66  not found   74  reading or writing failed, or the station is in use   77  not permitted`;

const PUBLISH_MORE = `
Until it is published no test can be set out with a draft. The log keeps who wrote it, who let it go, why, from which day
on it holds, and its SHA-256. Where writer and approver are one person, that is allowed and said everywhere.
${EXITS}`;

/** `sievewright product draft|publish|discard`. */
export function productDraftCommands(product: Command, act: Act): void {
  withSigner(product.command("draft"))
    .summary("begin the next revision of a product, or show the draft there is")
    .description("Begins a draft of a product's next revision, or shows the one there is with what it changes.")
    .argument("<code>", "the product's code")
    .option(
      "--from <file>",
      "fill it from a product file, or from the file of a discarded draft (- for standard input)",
    )
    .option(...BY)
    .option(...JSON_OUT)
    .option(...DATA)
    .addHelpText("after", EXITS)
    .action((code: string, options: ProductDraftOptions) =>
      act(async (io) => (await import("./productDraft.ts")).productDraft(code, options, io)),
    );
  withSigner(product.command("publish"))
    .summary("make a revision of a draft")
    .description("Makes a revision of a product's draft.")
    .argument("<code>", "the product's code")
    .requiredOption("--reason <words>", "why there is a new revision")
    .option("--effective <day>", "from which day on it holds, like 2026-12-01 (default: today)")
    .option(...BY)
    .option(...JSON_OUT)
    .option(...DATA)
    .addHelpText("after", PUBLISH_MORE)
    .action((code: string, options: ProductPublishOptions) =>
      act(async (io) => (await import("./productPublish.ts")).productPublish(code, options, io)),
    );
  withSigner(product.command("discard"))
    .summary("discard the draft of a product")
    .description("Discards the draft of a product. Its file is kept beside; product draft --from takes it up again.")
    .argument("<code>", "the product's code")
    .option(...BY)
    .option(...DATA)
    .addHelpText("after", EXITS)
    .action((code: string, options: ProductSignerOptions) =>
      act(async (io) => (await import("./productDiscard.ts")).productDiscard(code, options, io)),
    );
}
