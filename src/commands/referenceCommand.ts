import type { Command } from "commander";
import type { Act } from "./act.ts";
import type { ReferenceOptions } from "./reference.ts";
import { withSigner } from "./signer.ts";

const MORE = `
The material is a file (sievewright.referenceMaterial/1: certified passing % with expanded uncertainty) or the code of a
registered one. Run it like a test, with the set of sieves chosen; or name a weighing sheet with a column "sieve".
--record tells the log, so that the life of each sieve shows it and a sieve that is off asks for an inspection.

Exit codes:
  0   every sieve that could be judged agrees   1   one disagrees or more   2   one is questionable or more
  64  wrong use   65  bad data   66  no such material, test, file or station
  74  reading or writing failed, or the station is in use   77  not permitted: recording takes somebody of quality`;

export function referenceCommand(program: Command, act: Act): void {
  withSigner(program.command("reference"))
    .summary("judge each sieve by a certified reference material")
    .description("Judges each sieve by a certified material: En number, z score, effective aperture.")
    .argument("<material>", "file or code of the material")
    .argument("<run>", "the number of the recorded test, or a weighing sheet; - for standard input")
    .option("--uncertainty <pct>", "expanded (k = 2) uncertainty of what was found, in % passing")
    .option("--record", "tell the log")
    .option("--note <text>", "anything besides, for the log")
    .option("--by <initials>", "your initials for the log, where nobody signs on (default: your login name)")
    .option("--json", "everything as JSON")
    .option("--data <folder>", "the station's folder")
    .addHelpText("after", MORE)
    .action((material: string, run: string, options: ReferenceOptions) =>
      act(async (io) => (await import("./reference.ts")).reference(material, run, options, io)),
    );
}
