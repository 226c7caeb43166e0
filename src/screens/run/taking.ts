import type { Draft } from "../../record/draft.ts";
import type { Product } from "../../record/product.ts";
import type { RetestOf } from "../../record/test.ts";
import type { LastTest, Setting } from "../../run/run.ts";
import { resumeRun, startRun } from "../../run/start.ts";
import { NOTHING_USUAL } from "../../run/usual.ts";
import { dayBegan, shiftBegan } from "../../shift/schedule.ts";
import { say } from "../../words/say.ts";
import { type App, enter, type Step, stay } from "../place.ts";
import { testIdOf } from "./identity.ts";

const wordsOf = ({ lot, line, samplingPoint }: LastTest): LastTest => ({ lot, line, samplingPoint });

/** What a test set out now can choose from and compare with; null without a balance. */
export function settingOf(app: App): Setting | null {
  const [balance] = app.station.balances;
  if (!balance) return null;
  return {
    products: app.products,
    programs: app.programs,
    lines: app.station.lines,
    samplingPoints: app.station.samplingPoints,
    last: new Map((app.recent ?? []).toReversed().map((row) => [row.product, wordsOf(row)])),
    usual: NOTHING_USUAL,
    balance,
    ...(app.station.scanner?.balance === undefined ? {} : { marks: app.station.scanner.balance }),
    ...(app.care === undefined ? {} : { care: app.care }),
    balanceKnown: {
      last: app.balanceCheck,
      shiftBegan: shiftBegan(app.now, app.station),
      dayBegan: dayBegan(app.now, app.station),
    },
  };
}

/** What the last test of this product says about lot, line and sampling point; without one, the first of each list. */
export function lastWords(app: App, product: Product): LastTest {
  const ofProduct =
    app.drafts.findLast((d) => d.product.code === product.code) ??
    app.recent?.find((row) => row.product === product.code);
  return {
    lot: ofProduct?.lot ?? "",
    line: ofProduct?.line ?? app.station.lines[0] ?? "",
    samplingPoint: ofProduct?.samplingPoint ?? app.station.samplingPoints[0] ?? "",
  };
}

/** The product of the latest test, in work or on record. */
export function lastProduct(app: App): Product | undefined {
  const draft = app.drafts.at(-1);
  const row = app.recent?.[0];
  const code = draft && (!row || draft.startedAt > row.at) ? draft.product.code : row?.product;
  return app.products.find((p) => p.code === code) ?? app.products[0];
}

/** Also of those saved earlier in this session that have been ended or dropped since. */
const namesTaken = ({ drafts, recent, saved }: App): ReadonlySet<string> =>
  new Set([...[...drafts, ...(recent ?? [])].map(({ testId }) => testId), ...saved.keys()]);

export const runPlace = (run: ReturnType<typeof startRun>) => ({ name: "run", run, view: 0, writing: null }) as const;

/** Sets a test out: where it comes from stands already, and which one it repeats where it repeats one. */
function setOut(app: App, at: string, product: Product | undefined, words: LastTest | null, retest?: RetestOf): Step {
  const setting = settingOf(app);
  if (!product || !setting)
    return stay(app, say`no product in the library: leave with q, then sievewright product add FILE`);
  const run = startRun(product, words ?? lastWords(app, product), setting, {
    testId: testIdOf(at, namesTaken(app)),
    station: app.station.station,
    at,
    ...(retest === undefined ? {} : { retest }),
  });
  return { app: enter(app, runPlace(run)), effects: [{ do: "learnUsual", product }] };
}

/** A test of a lot once more, saying which one it repeats and how it came about. */
export const retested = (app: App, at: string, product: Product, words: LastTest, retest: RetestOf): Step =>
  setOut(app, at, product, words, retest);

/** A new test, with what a product code typed or scanned on the bench says, or with the last product. */
export const newTest = (app: App, at: string, product: Product | undefined = lastProduct(app)): Step =>
  setOut(app, at, product, null);

/** The product that a lot was tested as last, in work or on record; else that of the latest test. */
const productOfLot = (app: App, lot: string): Product | undefined => {
  const row = app.recent?.find((one) => one.lot.toLowerCase() === lot.toLowerCase());
  return app.products.find(({ code }) => code === row?.product) ?? lastProduct(app);
};

/** A new test of a lot that was scanned on the bench: it stands in its field, and its Enter accepts it. */
export function lotTest(app: App, at: string, lot: string): Step {
  const product = productOfLot(app, lot);
  const words = product && { ...lastWords(app, product), lot: lot.slice(0, 40) };
  const before = app.recent?.find((one) => one.lot.toLowerCase() === lot.toLowerCase());
  const { app: there, effects } = setOut(app, at, product, words ?? null);
  if (before === undefined) return { app: there, effects };
  const told = say`lot ${lot} was tested as no. ${before.number}: j on the bench shows all its tests`;
  return { app: { ...there, message: told }, effects };
}

/** A draft taken up where it was left. */
export function resume(app: App, draft: Draft): Step {
  const setting = settingOf(app);
  if (!setting) return stay(app, say`this station has no balance`);
  const run = resumeRun(draft, setting);
  return { app: enter(app, runPlace(run)), effects: [{ do: "learnUsual", product: draft.product }] };
}
