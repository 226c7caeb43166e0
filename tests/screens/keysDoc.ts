import type { Product } from "../../src/record/product.ts";
import { FILTER_SAND } from "../run/hands.ts";
import { anApp, Stage } from "./stage.ts";

/** How many sieves, the pan not counted. */
export const STACKS = [4, 6, 8, 12] as const;
const SERIES_UM = [4000, 2800, 2000, 1400, 1000, 710, 500, 355, 250, 180, 125, 90];

/** What one real run by keys cost, counted by the stage that pressed them. */
export interface Counted {
  readonly sieves: number;
  readonly weighings: number;
  /** Digits and decimal marks of the masses. */
  readonly digits: number;
  readonly keys: number;
  /** Keys that a hand presses where the balance types the masses itself, each with its Enter. */
  readonly keysByBalance: number;
}

const productOf = (sieves: number): Product => ({
  ...FILTER_SAND,
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

/** From the bench to the record: a test of the same lot, line and point as the one before, released. */
function testedBy(sieves: number, weigh: Weigh): Stage {
  const stage = new Stage(anApp({ products: [productOf(sieves)], revisions: [productOf(sieves)] }));
  const { charge, empty, full } = massesOf(sieves);
  stage.types("n").presses("enter", "enter", "enter", "enter");
  for (const mass of [charge, ...empty]) weigh(stage, mass);
  stage.presses("enter").waits(601).presses("enter");
  for (const mass of full) weigh(stage, mass);
  return stage.presses("enter", "enter", "enter");
}

/** Presses a whole test; fails where it does not end on record. */
export function counted(sieves: number): Counted {
  const byHand = testedBy(sieves, (stage, mass) => stage.enters(mass));
  let scans = 0;
  const byBalance = testedBy(sieves, (stage, mass) => {
    scans += 1;
    stage.scans(`+ ${mass} g`);
  });
  for (const { effects } of [byHand, byBalance])
    if (!effects.some((effect) => effect.do === "record"))
      throw new Error(`the test of ${sieves} sieves is not on record`);
  const { charge, empty, full } = massesOf(sieves);
  return {
    sieves,
    weighings: 1 + empty.length + full.length,
    digits: [charge, ...empty, ...full].join("").length,
    keys: byHand.keysPressed,
    keysByBalance: byBalance.keysPressed - scans,
  };
}

/** Keys besides the digits and one Enter a weighing. */
export const besides = ({ keys, digits, weighings }: Counted): number => keys - digits - weighings;

const rowOf = (run: Counted): string =>
  `| ${[run.sieves, run.weighings, run.digits, run.weighings, besides(run), run.keys, run.keysByBalance].join(" | ")} |`;

export const keysDoc = (): string => `# Keys of a whole test

Counted in real runs of the screens, key by key, from \`n\` on the bench to the test on record: the product, lot, line and
sampling point of the last test taken over with Enter, the charge weighed, every sieve and the pan weighed empty and full to
0.01 g, the shaker's countdown run to its end, released, signed by whoever signed last. The masses are invented. Made by a
test (\`npm run docs:keys\`), which also holds the goal: digits, one Enter a weighing, and at most ten keys more.

| sieves and a pan | weighings | digits that must be typed | Enters of the weighings | keys besides | keys in all | keys where the balance types |
| --: | --: | --: | --: | --: | --: | --: |
${STACKS.map((sieves) => rowOf(counted(sieves))).join("\n")}

The keys besides are: \`n\`; Enter for product, lot, line and sampling point; Enter to start the shaker's countdown and to
go on when it has ended; Enter to sign, for the disposition and for the initials. Where sets of sieves
are registered, one Enter more takes the set shown. A new lot costs its own characters, another
product the first characters of its code, or a scan of it. Where the balance types its masses into the field, each with its own
Enter, only these keys are left.
`;
