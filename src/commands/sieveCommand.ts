import type { Command } from "commander";
import type { Act } from "./act.ts";
import type { CareOptions, CleanOptions, ReasonOptions } from "./sieveCare.ts";
import type { InspectOptions } from "./sieveInspect.ts";
import type { SieveShowOptions } from "./sieveShow.ts";
import { withSigner } from "./signer.ts";

const DATA = ["--data <folder>", "the station's folder"] as const;

const CODES = `
Wire ends are sharp and brushing raises dust: hold sieves by the frame, clean where dust is drawn off, by your site's rules.
Sieves are named by serial, or all of a set by its code. Everybody may clean, look over and quarantine; to measure,
repair, return and retire takes somebody of quality, where people sign on.

Exit codes:
  0   on record
  64  wrong use   65  it does not fit the register   66  no such sieve, or no station in that folder
  74  reading or writing failed, or the station is in use   77  not permitted`;

const INSPECT = `
Looks are light, wrinkles, tears, solder and seat: --good all --faulty tears says that all but the tears are good.
The file of measured apertures is CSV with the header warp_um,weft_um (or warp_um), an aperture in um a cell. They are
judged against Y (mean) and X (largest); where the limits come from is told. --dry-run judges and records nothing.

Exit codes:
  0   fit   1   not fit   2   incomplete: nothing is wrong, but something was not looked at or too few were measured
  64  wrong use   65  bad data   66  no such sieve or file, or no station in that folder
  74  reading or writing failed, or the station is in use   77  not permitted`;

/** `sievewright sieve ...`: what is done to look after sieves. */
export function sieveCommand(root: Command, act: Act): void {
  const sieve = root
    .command("sieve")
    .summary("look after sieves: show, inspect, clean, quarantine, repair, return, retire")
    .description("Shows one sieve, and tells the log what was done to look after sieves; register takes new ones in.");
  show(sieve, act);
  inspect(sieve, act);
  clean(sieve, act);
  withReasons(sieve, act);
}

/** A command that records something done to sieves. */
const recording = (command: Command): Command =>
  withSigner(command)
    .option("--note <text>", "anything besides, for the log")
    .option("--by <initials>", "your initials for the log, where nobody signs on (default: your login name)")
    .option("--json", "what was recorded as JSON")
    .option(...DATA);

function show(sieve: Command, act: Act): void {
  sieve
    .command("show")
    .summary("show one sieve: state, use, empty masses, life")
    .description("Shows one sieve: how it stands and what to do, what it was used for, its empty masses, its life.")
    .argument("<serial>", "the sieve's serial")
    .option("--json", "all of it as JSON")
    .option(...DATA)
    .action((serial: string, options: SieveShowOptions) =>
      act(async (io) => (await import("./sieveShow.ts")).sieveShow(serial, options, io)),
    );
}

function inspect(sieve: Command, act: Act): void {
  recording(sieve.command("inspect"))
    .summary("record an inspection: looks and measured apertures")
    .description("Judges an inspection and records it: looks over cloth and frame, and apertures where measured.")
    .argument("<serial>", "the sieve's serial")
    .option("--good <looks>", "looks that were good, with commas between, or all")
    .option("--faulty <looks>", "looks that were faulty")
    .option("--measured <file>", "measured apertures (CSV); - for standard input")
    .option("--in-cloth <n>", "how many apertures the cloth has")
    .option("--instrument <text>", "what they were measured with")
    .option("--dry-run", "judge and record nothing")
    .addHelpText("after", INSPECT)
    .action((serial: string, options: InspectOptions) =>
      act(async (io) => (await import("./sieveInspect.ts")).sieveInspect(serial, options, io)),
    );
}

function clean(sieve: Command, act: Act): void {
  recording(sieve.command("clean"))
    .summary("record a cleaning, and what the sieve weighs afterwards")
    .description("Records that sieves were cleaned; what one weighs afterwards becomes part of its own cleaned level.")
    .argument("<sieves...>", "serials, or the code of a set")
    .requiredOption("--how <way>", "brush, ultrasonic, wash or tap")
    .option("--weighed <g>", "what the sieve weighs empty afterwards, dry and cool (one sieve)")
    .addHelpText("after", CODES)
    .action((names: string[], options: CleanOptions) =>
      act(async (io) => (await import("./sieveCare.ts")).sieveClean(names, options, io)),
    );
}

const WITH_REASONS = [
  ["quarantine", "quarantine", "take sieves out of service until they are looked into"],
  ["repair", "repair", "record a repair; --reason says what was done"],
  ["return", "return to service", "return sieves to service; --reason says what shows that they are right"],
  ["retire", "retirement", "retire sieves for good"],
] as const;

function withReasons(sieve: Command, act: Act): void {
  for (const [name, did, summary] of WITH_REASONS)
    recording(sieve.command(name))
      .summary(summary)
      .description(`${summary.charAt(0).toUpperCase()}${summary.slice(1)}.`)
      .argument("<sieves...>", "serials, or the code of a set")
      .requiredOption("--reason <text>", "why, for the log")
      .addHelpText("after", CODES)
      .action((names: string[], options: CareOptions & ReasonOptions) =>
        act(async (io) => (await import("./sieveCare.ts")).sieveWithReason(did, names, options, io)),
      );
}
