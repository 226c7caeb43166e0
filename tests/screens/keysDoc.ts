import type { CareKnown } from "../../src/care/known.ts";
import type { LogEntry } from "../../src/record/logEntry.ts";
import type { Product } from "../../src/record/product.ts";
import type { TestRecord } from "../../src/record/test.ts";
import { NOTHING_USUAL } from "../../src/run/usual.ts";
import { usualLearnt } from "../../src/screens/answers.ts";
import { knownOf, setOf, sieveOf } from "../care/knownWorld.ts";
import { FILTER_SAND } from "../run/hands.ts";
import { testRecord } from "../store/records.ts";
import { anApp, Stage } from "./stage.ts";

/** How many sieves, the pan not counted. */
export const STACKS = [4, 6, 8, 12] as const;
const SERIES_UM = [4000, 2800, 2000, 1400, 1000, 710, 500, 355, 250, 180, 125, 90];

export const WAYS = ["weighed empty", "set of sieves", "taken over"] as const;
/**
 * How a test is run: every sieve weighed empty and no sieve registered; the same with a registered set; or with the empty
 * masses of the sieves of the test before taken over, which the set was weighed in, and the pan weighed.
 */
export type Way = (typeof WAYS)[number];

/** What one real run by keys cost, counted by the stage that pressed them. */
export interface Counted {
  readonly sieves: number;
  readonly way: Way;
  readonly weighings: number;
  /** Digits and decimal marks of the masses. */
  readonly digits: number;
  readonly keys: number;
  /** Keys that a hand presses where the balance types the masses itself, each with its Enter. */
  readonly keysByBalance: number;
}

const productOf = (sieves: number): Product => ({
  ...FILTER_SAND,
  method: { ...FILTER_SAND.method, emptyMasses: "each shift" },
  envelope: [],
  values: [],
  stackUm: SERIES_UM.slice(0, sieves),
});

/** Invented masses that close: most of the charge lies in the middle of the stack. */
function massesOf(sieves: number): {
  readonly charge: string;
  readonly empty: readonly string[];
  readonly full: readonly string[];
} {
  const rows = sieves + 1;
  const weights = Array.from({ length: rows }, (_, row) => 1 + Math.min(row, rows - 1 - row));
  const whole = weights.reduce((sum, w) => sum + w, 0);
  const netG = weights.map((weight) => Math.round((30_000 * weight) / whole) / 100);
  const emptyG = netG.map((_, row) => 420 - 3.17 * row);
  const two = (grams: number) => grams.toFixed(2);
  const sumG = netG.reduce((sum, grams) => sum + grams, 0);
  return {
    charge: two(sumG + 0.2),
    empty: emptyG.map(two),
    full: emptyG.map((grams, row) => two(grams + (netG[row] ?? 0))),
  };
}

type Weigh = (stage: Stage, mass: string) => void;

const serial = (um: number) => `S-${um}`;

/** The test before, an hour ago on the registered set. */
function testBefore(sieves: number): TestRecord {
  const { empty, full } = massesOf(sieves);
  const { stackUm } = productOf(sieves);
  const weighings = [...stackUm, 0].map((apertureUm, row) => ({
    apertureUm,
    ...(apertureUm > 0 ? { serial: serial(apertureUm) } : {}),
    emptyG: Number(empty[row]),
    fullG: Number(full[row]),
  }));
  const startedAt = "2026-11-24T02:12:00+01:00";
  const { balances } = anApp().station;
  const balance = balances[0] ?? { id: "B1", capacityG: 3100, readabilityG: 0.01 };
  return { ...testRecord("t-1", startedAt), product: productOf(sieves), set: "SET", weighings, balance };
}

/** What the station knows that has the set registered and used it in the test before. */
function careOf(sieves: number): CareKnown {
  const { stackUm } = productOf(sieves);
  const at = "2026-11-24T02:30:00+01:00";
  const sealed = { number: 1, at, day: "2026-11-24", station: "TH-DRY1", by: "KO", previous: "0".repeat(64) };
  const entry: LogEntry = { kind: "test", ...sealed, test: testBefore(sieves) };
  return knownOf([...stackUm.map((um) => sieveOf(serial(um), um)), setOf("SET", ...stackUm.map(serial))], [entry]);
}

function atBench(sieves: number, way: Way): Stage {
  const care = way === "weighed empty" ? {} : { care: careOf(sieves) };
  return new Stage(anApp({ products: [productOf(sieves)], revisions: [productOf(sieves)], ...care }));
}

/** What the disk tells of the tests before, as the screens ask for it when a test is set out. */
const learns = (stage: Stage, sieves: number): void => {
  const emptied = [{ number: 1, voided: false, test: testBefore(sieves) }];
  stage.app = usualLearnt(stage.app, productOf(sieves).code, NOTHING_USUAL, emptied);
};

/** From the bench to the record: a test of the same lot, line and point as the one before, released. */
function testedBy(sieves: number, way: Way, weigh: Weigh): Stage {
  const stage = atBench(sieves, way);
  const { charge, empty, full } = massesOf(sieves);
  stage.types("n").presses("enter", "enter", "enter", "enter");
  weigh(stage, charge);
  if (way === "taken over") {
    learns(stage, sieves);
    stage.types("t");
    weigh(stage, empty.at(-1) ?? "");
  } else for (const mass of empty) weigh(stage, mass);
  stage.presses("enter").waits(601).presses("enter");
  for (const mass of full) weigh(stage, mass);
  return stage.presses("enter", "enter", "enter");
}

/** Presses a whole test; fails where it does not end on record. */
export function counted(sieves: number, way: Way): Counted {
  const byHand = testedBy(sieves, way, (stage, mass) => stage.enters(mass));
  let scans = 0;
  const byBalance = testedBy(sieves, way, (stage, mass) => {
    scans += 1;
    stage.scans(`+ ${mass} g`);
  });
  for (const { effects } of [byHand, byBalance])
    if (!effects.some((effect) => effect.do === "record"))
      throw new Error(`the test of ${sieves} sieves is not on record`);
  const { charge, empty, full } = massesOf(sieves);
  const masses = [charge, ...(way === "taken over" ? empty.slice(-1) : empty), ...full];
  return {
    sieves,
    way,
    weighings: masses.length,
    digits: masses.join("").length,
    keys: byHand.keysPressed,
    keysByBalance: byBalance.keysPressed - scans,
  };
}

/** Keys besides the digits and one Enter a weighing. */
export const besides = ({ keys, digits, weighings }: Counted): number => keys - digits - weighings;

const rowOf = (run: Counted): string =>
  `| ${[run.sieves, run.weighings, run.digits, run.weighings, besides(run), run.keys, run.keysByBalance].join(" | ")} |`;

const HEADING = `| sieves and a pan | weighings | digits that must be typed | Enters of the weighings | keys besides | keys in all | keys where the balance types |
| --: | --: | --: | --: | --: | --: | --: |`;

const table = (way: Way): string => `${HEADING}\n${STACKS.map((sieves) => rowOf(counted(sieves, way))).join("\n")}`;

export const keysDoc = (): string => `# Keys of a whole test

Counted in real runs of the screens, key by key, from \`n\` on the bench to the test on record: the product, lot, line and
sampling point of the last test taken over with Enter, the charge weighed, every sieve and the pan weighed empty and full to
0.01 g, the shaker's countdown run to its end, released, signed by whoever signed last. The masses are invented. Made by a
test (\`npm run docs:keys\`), which also holds the goal: digits, one Enter a weighing, and at most ten keys more.

${table("weighed empty")}

The keys besides are: \`n\`; Enter for product, lot, line and sampling point; Enter to start the shaker's countdown and to
go on when it has ended; Enter to sign, for the disposition and for the initials. A new lot costs its own characters, or a
scan of it; another product the first characters of its code, or a scan. Where the balance types its masses into the field,
each with its own Enter, only these keys are left.

## With a registered set of sieves

The set that the product was sieved with last goes in with the Enter of the sampling point, so it costs no key; every weighing
bears its serial. Another set, or one of whose sieves something is to be said, costs its scan or an Enter.

${table("set of sieves")}

## With the empty masses of the test before

Where the product's method weighs the sieves empty once a shift (\`"emptyMasses": "each shift"\`), \`t\` takes the empty masses of
the latest test on the same sieves over: one key for all of them. It is the eleventh key besides, and stands for every
weighing that is not made. The pan has no serial, so another one could weigh with the fines: it is weighed for every test.

${table("taken over")}
`;
