import { compareStacks, type PairedRuns, type RunPassing } from "../care/comparison/compareStacks.ts";
import { comparePage, type PairNamed } from "../report/comparePage.ts";
import { apertureText } from "../series/apertureText.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { isNumber, type Run, runNamed } from "./compareRun.ts";
import { done, type Ending, EXIT, ended, faulty, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";
import { numberOption } from "./numberOption.ts";
import { textLook, textPage } from "./textPage.ts";

export interface CompareOptions {
  readonly working: readonly string[];
  readonly master: readonly string[];
  readonly difference?: string;
  readonly alpha?: string;
  readonly json?: boolean;
  readonly data?: string;
  readonly masterData?: string;
}

interface Pair {
  readonly working: Run;
  readonly master: Run;
}

interface Choice {
  readonly alpha: number;
  readonly differencePct: number;
}

function choiceIn({ difference = "1", alpha = "5" }: CompareOptions): Step<Choice> {
  const differencePct = numberOption("--difference", difference);
  if (!differencePct.ok) return differencePct;
  if (!(differencePct.value > 0 && differencePct.value <= 100))
    return ended(EXIT.usage, `--difference ${difference}: give % passing, above 0 and at most 100`);
  const alphaPct = numberOption("--alpha", alpha);
  if (!alphaPct.ok) return alphaPct;
  if (!(alphaPct.value >= 0.1 && alphaPct.value <= 20))
    return ended(EXIT.usage, `--alpha ${alpha}: give the chance of a false bias in %, from 0.1 to 20`);
  return reached({ alpha: alphaPct.value / 100, differencePct: differencePct.value });
}

async function pairsIn({ working, master, data, masterData }: CompareOptions, io: Io): Promise<Step<readonly Pair[]>> {
  const pairs: Pair[] = [];
  for (const [i, name] of working.entries()) {
    const own = await runNamed(name, data, io);
    if (!own.ok) return own;
    const other = await runNamed(master[i] ?? "", masterData ?? data, io);
    if (!other.ok) return other;
    pairs.push({ working: own.value, master: other.value });
  }
  return reached(pairs);
}

const runsOf = (pairs: readonly Pair[]): readonly Run[] => pairs.flatMap(({ working, master }) => [working, master]);

const passingOf = ({ assessment }: Run): RunPassing =>
  assessment.fractions
    .filter(({ apertureUm }) => apertureUm > 0)
    .map(({ apertureUm, passingPct }) => ({ apertureUm, passingPct }));

const pairedOf = ({ working, master }: Pair): PairedRuns => ({
  working: passingOf(working),
  master: passingOf(master),
});

/** The same run on both sides, or twice on one: what it is compared with would be itself. */
function repeated(pairs: readonly Pair[]): string | null {
  const seen = new Set<string>();
  for (const { name, test } of runsOf(pairs)) {
    if (test === null) continue;
    if (seen.has(test.testId)) return `${name} is named more than once: a test compared with itself shows nothing`;
    seen.add(test.testId);
  }
  return null;
}

/** Why the runs can't be compared; null when they can. */
function unfit(pairs: readonly Pair[]): string | null {
  const twice = repeated(pairs);
  if (twice !== null) return twice;
  const [first, ...others] = runsOf(pairs);
  const odd = others.find(({ assessment }) => assessment.basis !== first?.assessment.basis);
  if (first && odd)
    return `${first.name} has percentages of the ${first.assessment.basis} mass, ${odd.name} of the ${odd.assessment.basis} mass: compare like with like`;
  const apart = pairs.find(({ working, master }) => shared(working, master).length === 0);
  return apart ? `${apart.working.name} and ${apart.master.name} have no aperture in common` : null;
}

const shared = (one: Run, other: Run): readonly number[] =>
  passingOf(one).flatMap(({ apertureUm }) =>
    passingOf(other).some((row) => row.apertureUm === apertureUm) ? [apertureUm] : [],
  );

const everySerial = ({ serials, assessment }: Run): boolean =>
  assessment.fractions.every(({ apertureUm }) => apertureUm === 0 || serials.has(apertureUm));

/** Sieves that the two runs of every pair have in common say nothing of a bias between two stacks. */
function sameSieves(pairs: readonly Pair[]): string[] {
  const common = pairs.flatMap(({ working, master }) => {
    const own = new Set(master.serials.values());
    return [...working.serials.values()].filter((serial) => own.has(serial));
  });
  const named = [...new Set(common)].toSorted();
  if (named.length === 0) return [];
  const [ws, ms] = [pairs.map((pair) => pair.working), pairs.map((pair) => pair.master)];
  const all = [...ws, ...ms].every(
    (one) => everySerial(one) && [...one.serials.values()].every((s) => named.includes(s)),
  );
  return all
    ? ["both sides used the same sieves: this compares two samples or two people, not two stacks"]
    : [`on both sides: ${named.join(", ")}; there a sieve is compared with itself`];
}

function notesOn(pairs: readonly Pair[]): string[] {
  const invalid = runsOf(pairs)
    .filter(({ assessment }) => assessment.verdict.test === "invalid")
    .map(({ name }) => `${name} is no valid test`);
  const lone = pairs.flatMap(({ working, master }) => {
    const both = shared(working, master);
    const alone = [...passingOf(working), ...passingOf(master)].filter(({ apertureUm }) => !both.includes(apertureUm));
    return alone.map(({ apertureUm }) => apertureUm);
  });
  const left = [...new Set(lone)].toSorted((a, b) => b - a).map(apertureText);
  return [
    ...invalid,
    ...sameSieves(pairs),
    ...(left.length > 0 ? [`only on one of the stacks, not compared: ${left.join(", ")}`] : []),
  ];
}

function printed(pairs: readonly Pair[], choice: Choice, json: boolean, io: Io): Ending {
  const compared = compareStacks(pairs.map(pairedOf), choice);
  const named: PairNamed[] = pairs.map(({ working, master }) => ({ working: working.name, master: master.name }));
  const notes = notesOn(pairs);
  const code = compared.biased ? EXIT.fail : compared.tooFew ? EXIT.borderline : EXIT.ok;
  if (json) {
    const told = { schema: "sievewright.comparison/1", ...choice, pairs: named, ...compared };
    return done(`${printedJson({ ...told, notes: [...compared.notes, ...notes] })}\n`, code);
  }
  const look = textLook(io);
  const head = { pairs: named, differencePct: choice.differencePct, notes };
  return done(textPage(comparePage(compared, head, look.width), look), code);
}

/** `sievewright compare`: the same portions on a working and a master stack; the exit code tells a bias. Changes nothing. */
export async function compare(options: CompareOptions, io: Io): Promise<Ending> {
  const { working, master } = options;
  if (working.length !== master.length)
    return faulty(EXIT.usage, `--working names ${working.length} runs, --master ${master.length}: they go in pairs`);
  if ([...working, ...master].filter((name) => name === "-").length > 1)
    return faulty(EXIT.usage, "only one sheet can come from standard input");
  const twice = working.find((name) => master.includes(name) && (options.masterData === undefined || !isNumber(name)));
  if (twice !== undefined)
    return faulty(EXIT.usage, `${twice} stands on both sides: a test compared with itself shows nothing`);
  const choice = choiceIn(options);
  if (!choice.ok) return choice.ending;
  const pairs = await pairsIn(options, io);
  if (!pairs.ok) return pairs.ending;
  const fault = unfit(pairs.value);
  return fault === null ? printed(pairs.value, choice.value, options.json ?? false, io) : faulty(EXIT.badData, fault);
}
