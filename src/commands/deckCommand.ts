import { type Command, Option } from "commander";
import { INTERPOLATIONS } from "../record/product.ts";
import type { Act } from "./act.ts";
import type { DeckOptions } from "./deck.ts";

const MORE = `
Three weighing sheets, as for evaluate, sieved on the same stack: what the deck was fed, what went over, what went
through. Prints the share of oversize, oversize recovery, undersize recovery and overall effectiveness, and the
partition curve with its cut size. Without --cut the recoveries are taken at the sieve nearest the cut size.

Exit codes:
  0   worked out; a figure that can't be determined says why
  64  wrong use   65  bad data, other stacks, or streams that do not balance
  66  file not found   74  reading or writing failed`;

export function deckCommand(program: Command, act: Act): void {
  program
    .command("deck")
    .summary("tell how well a screen deck separates")
    .description("Tells how well a screen deck separates, from the gradings of feed, oversize and undersize.")
    .argument("<feed>", "weighing sheet of the feed; - for standard input")
    .argument("<oversize>", "of what went over the deck")
    .argument("<undersize>", "of what went through it")
    .option("--cut <um>", "aperture of the stack at which recoveries are taken, in um")
    .addOption(new Option("--interpolate <way>", "how the curves are read between sizes").choices(INTERPOLATIONS))
    .option("--json", "print the figures as JSON")
    .addHelpText("after", MORE)
    .action((feed: string, oversize: string, undersize: string, options: DeckOptions) =>
      act(async (io) => (await import("./deck.ts")).deck({ feed, oversize, undersize }, options, io)),
    );
}
