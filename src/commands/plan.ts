import { withMeans } from "../assess/drawnOver.ts";
import { type PlanAsked, planOf } from "../assess/productPlan.ts";
import { type TypicalTest, typicalOf, typicalOfMasses } from "../assess/typicalTest.ts";
import { assess } from "../assess.ts";
import type { Product } from "../record/product.ts";
import { planJson } from "../report/planJson.ts";
import { planPage } from "../report/planPage.ts";
import { type PlanFrom, planFromTests } from "../report/planWords.ts";
import { dataFolder } from "../store/dataFolder.ts";
import { latestTests, PLAN_TESTS } from "../store/latestTests.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { type Ending, EXIT, ended, faulty, reached, type Step } from "./ending.ts";
import { inputName } from "./inputFile.ts";
import type { Io } from "./io.ts";
import { numberOption } from "./numberOption.ts";
import { openForReading } from "./openForReading.ts";
import { productNamed } from "./productNamed.ts";
import { sheetMeans } from "./sheetMeans.ts";
import { textLook, textPage } from "./textPage.ts";
import { READABILITY_G, weighedSheet } from "./weighedSheet.ts";

export interface PlanOptions {
  readonly risk?: string;
  readonly charge?: string;
  readonly portions?: string;
  readonly sheet?: string;
  readonly json?: boolean;
  readonly data?: string;
}

const USUAL_RISK_PCT = 5;
const MOST_CHARGE_G = 1e6;
const MOST_PORTIONS = 100;

function numberWithin(name: string, text: string | undefined, [low, high]: readonly [number, number]) {
  if (text === undefined) return reached(null);
  const number = numberOption(name, text);
  if (!number.ok || (number.value >= low && number.value <= high)) return number;
  return ended(EXIT.usage, `${name} ${text}: give a number from ${low} to ${high}`);
}

function askedBy({ risk, charge, portions }: PlanOptions): Step<PlanAsked> {
  const riskPct = numberWithin("--risk", risk, [0.01, 49]);
  if (!riskPct.ok) return riskPct;
  const chargeG = numberWithin("--charge", charge, [0.001, MOST_CHARGE_G]);
  if (!chargeG.ok) return chargeG;
  const many = numberWithin("--portions", portions, [1, MOST_PORTIONS]);
  if (!many.ok) return many;
  if (many.value !== null && !Number.isInteger(many.value))
    return ended(EXIT.usage, `--portions ${portions}: give a whole number`);
  return reached({ riskPct: riskPct.value ?? USUAL_RISK_PCT, chargeG: chargeG.value, portions: many.value });
}

interface Found {
  readonly typical: TypicalTest;
  readonly from: PlanFrom;
  readonly problem: string | null;
}

async function fromSheet(name: string, product: Product, { data }: PlanOptions, io: Io): Promise<Step<Found>> {
  const weighed = await weighedSheet(name, io);
  if (!weighed.ok) return weighed;
  const { sheet, masses } = weighed.value;
  const means = await sheetMeans(sheet, product, data, io);
  const circumstances = { readabilityG: READABILITY_G, balanceUnknown: true, ...(means === null ? {} : { means }) };
  const assessed = assess(masses, product, circumstances);
  if (!assessed.ok) return ended(EXIT.badData, `${inputName(name)}: ${assessed.reason}`);
  const typical = typicalOfMasses([{ ...assessed.value, panAssumed: masses.panAssumed }], product, null);
  if (!typical.ok) return ended(EXIT.badData, `${inputName(name)}: ${typical.reason}`);
  const known = withMeans(typical.value.known, means);
  return reached({
    typical: { ...typical.value, known },
    from: { kind: "sheet", name: inputName(name) },
    problem: null,
  });
}

async function fromStation(product: Product, { data }: PlanOptions, io: Io): Promise<Step<Found>> {
  const opened = await openForReading(data, io);
  if (!opened.ok) return opened;
  const store = opened.value;
  const { tests, problem } = await latestTests(store, product.code, PLAN_TESTS);
  const { folder, problems } = store;
  await store.close();
  const typical = typicalOf(tests, product);
  if (!typical.ok) {
    const none = tests.length === 0 ? `no test of ${product.code} in ${folder} counts` : typical.reason;
    return ended(EXIT.notFound, `${problem ?? none}: give a weighing sheet of a typical test with --sheet`);
  }
  const from = planFromTests(typical.value.of);
  return reached({ typical: typical.value, from, problem: problem ?? problems[0] ?? null });
}

/** `sievewright plan PRODUCT`: what it takes to judge each limit of a product; changes nothing. */
export async function plan(code: string, options: PlanOptions, io: Io): Promise<Ending> {
  const asked = askedBy(options);
  if (!asked.ok) return asked.ending;
  const product = await productNamed(code, dataFolder(options.data, io.env), io);
  if (!product.ok) return product.ending;
  const { sheet } = options;
  const found =
    sheet === undefined
      ? await fromStation(product.value, options, io)
      : await fromSheet(sheet, product.value, options, io);
  if (!found.ok) return found.ending;
  const { typical, from, problem } = found.value;
  const planned = planOf(product.value, typical, asked.value);
  if (!planned.ok) return faulty(EXIT.badData, planned.reason);
  const look = textLook(io);
  const out = options.json
    ? `${printedJson(planJson(planned.value, from))}\n`
    : textPage(planPage(planned.value, from, look.width), look);
  return { code: EXIT.ok, out, remark: () => problem };
}
