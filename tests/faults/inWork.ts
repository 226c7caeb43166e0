import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import type { Draft } from "../../src/record/draft.ts";
import { verifyLog } from "../../src/store/verify.ts";
import { EMPTY_G, FULL_G, Hands } from "../run/hands.ts";
import { must } from "../store/opened.ts";
import { type Operator, type OperatorOptions, startOperator } from "../terminal/operator.ts";
import { opened, QUICK_SAND, stationFolder } from "../terminal/stationOf.ts";

export const LOT = "4471-B";
const TEST_ID = "20261124-030000-001";

/** A test of filter sand with its empty sieves weighed and shaken, and so many of its six full ones weighed. */
export function halfWeighed(weighedFull: number, testId = TEST_ID): Draft {
  const { draft } = new Hands().setsOut().weighs(EMPTY_G).shakes().weighs(FULL_G.slice(0, weighedFull)).run;
  return { ...draft, testId, lot: LOT };
}

/** A station whose only draft is such a test; gone after the test. */
export async function stationInWork(weighedFull = 0): Promise<string> {
  const folder = await stationFolder([QUICK_SAND]);
  const store = await opened(folder);
  must(await store.saveDraft(halfWeighed(weighedFull)));
  await store.close();
  return folder;
}

/** The built program on that station, its one draft in hand. */
export async function resumed(
  folder: string,
  options: OperatorOptions = {},
  sight: string | RegExp = /weigh full \d+\/\d+/, // the bench says "weigh full, 4 of 6 done"
): Promise<Operator> {
  const operator = await startOperator({ args: ["--data", folder], ...options });
  await operator.sees(/resume +TH-0510/);
  await operator.presses("enter");
  await operator.sees(sight);
  return operator;
}

export const typedG = (grams: number): string => grams.toFixed(2);

/** A balance types the full masses of these rows, each once the one before is on disk. */
export async function weighsFull(operator: Operator, from: number, to: number): Promise<void> {
  for (const grams of FULL_G.slice(from, to)) {
    await operator.scans(typedG(grams));
    await operator.sees(new RegExp(`${typedG(grams).replace(".", "[.]")}[^]*▸`));
  }
}

/** An Enter on a question that has just come up counts for a bouncing key, so a hand looks first. */
const LOOK_MS = 300;

/** From the result to the signature, one Enter short of the record. */
export async function signs(operator: Operator): Promise<void> {
  await operator.sees("TEST VALID");
  await pause(LOOK_MS);
  await operator.presses("enter");
  await operator.sees("what becomes of the product?");
  await pause(LOOK_MS);
  await operator.presses("enter");
  await operator.sees("signed by  KO▌");
  await pause(LOOK_MS);
}

export const draftOnDisk = (folder: string): Draft | null => {
  const [name] = readdirSync(join(folder, "drafts")).filter((one) => one.endsWith(".json"));
  return name === undefined ? null : JSON.parse(readFileSync(join(folder, "drafts", name), "utf8"));
};

export const fullOnDisk = (folder: string): readonly (number | null)[] =>
  draftOnDisk(folder)?.weighings.map(({ fullG }) => fullG) ?? [];

/** So many of the full masses, and nothing for the other rows. */
export const weighed = (count: number): readonly (number | null)[] =>
  FULL_G.map((grams, row) => (row < count ? grams : null));

/** The log is one chain, and nothing half written lies about. */
export async function soundness(folder: string): Promise<object> {
  const names = readdirSync(folder, { recursive: true, encoding: "utf8" });
  return { ok: (await verifyLog(folder)).ok, left: names.filter((name) => /\.tmp$|unreadable/.test(name)) };
}
export const SOUND = { ok: true, left: [] };
