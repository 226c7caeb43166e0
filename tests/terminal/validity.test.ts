import { describe, expect, test, vi } from "vitest";
import type { Product } from "../../src/record/product.ts";
import { EMPTY_G, FULL_G } from "../run/hands.ts";
import { STATION } from "../screens/stage.ts";
import { type Operator, startOperator } from "./operator.ts";
import { QUICK_SAND, stationFolder } from "./stationOf.ts";

vi.setConfig({ testTimeout: 90_000 });

const two = (grams: number) => grams.toFixed(2);

/** Filter sand whose tests are judged by a named rule set: 203 mm frames, the end point required. */
const BY_RULES: Product = {
  ...QUICK_SAND,
  method: {
    ...QUICK_SAND.method,
    procedure: { ruleSet: "astm-c136-2020", frameMm: 203, endPoint: { required: true } },
  },
};
/** The same with its own limit of load, which 112 g on the 710 um sieve exceed. */
const LIGHT_LOAD: Product = {
  ...QUICK_SAND,
  method: { ...QUICK_SAND.method, procedure: { ruleSet: "own", load: { rule: "own", limitG: 100 } } },
};

async function atWeighFull(product: Product): Promise<Operator> {
  const folder = await stationFolder([product]);
  const operator = await startOperator({ args: ["--data", folder] });
  await operator.sees(/no test on record/);
  await operator.presses("1", "enter");
  await operator.scans("4471");
  await operator.presses("enter", "enter");
  await operator.scans("300.20");
  // The rule set wants its least charge; a second Enter takes this one.
  await operator.sees(/weigh empty 0\/6|Enter again accepts/);
  if (operator.screen().join("\n").includes("Enter again accepts")) await operator.presses("enter");
  await operator.sees("weigh empty 0/6");
  await balanceTypes(operator, EMPTY_G);
  await operator.sees("clamp it, start it");
  await operator.presses("enter");
  await operator.sees("time is up", 10_000);
  await operator.presses("enter");
  await operator.sees("weigh full 0/6");
  return operator;
}

async function balanceTypes(operator: Operator, masses: readonly number[]): Promise<void> {
  for (const [row, grams] of masses.entries()) {
    await operator.scans(two(grams));
    if (row < masses.length - 1) await operator.sees(two(grams));
  }
}

async function leaves(operator: Operator): Promise<void> {
  await operator.presses("ctrl+c");
  expect(await operator.exit()).toBe(0);
}

describe("is the test itself valid, in a real terminal", () => {
  test("an overload is doubted while the sieve is on the balance; in two portions it is gone", async () => {
    const operator = await atWeighFull(LIGHT_LOAD);
    await operator.sees("up to 100 g is a fair load");
    await balanceTypes(operator, FULL_G.slice(0, 3));
    await operator.sees("holds 112.3 g, a fair load is 100 g: sieve in portions");
    await operator.presses("enter");
    await balanceTypes(operator, FULL_G.slice(3));
    await operator.sees("TEST INVALID !");
    await operator.sees("held 112");
    await leaves(operator);
  });

  test("the same charge sieved in two portions is valid, and what each sieve held is summed", async () => {
    const operator = await atWeighFull(LIGHT_LOAD);
    const half = EMPTY_G.map((empty, row) => empty + ((FULL_G[row] ?? 0) - empty) / 2);
    await balanceTypes(operator, half);
    // Half of the charge is missing still, and the result says so.
    await operator.sees("TEST INVALID !");
    await operator.presses("a");
    await operator.sees("clamp it, start it");
    await operator.presses("enter");
    await operator.sees("time is up", 10_000);
    await operator.presses("enter");
    await operator.sees("weigh full 0/6");
    await balanceTypes(operator, half);
    await operator.sees("TEST VALID ✓");
    await operator.sees(/710 um +112\.3/);
    await leaves(operator);
  });

  test("a swapped pair of digits is named as what would explain the loss", async () => {
    const operator = await atWeighFull(QUICK_SAND);
    // 455.20 typed as 452.50: 2.70 g are missing, 0.99 % of the charge.
    await balanceTypes(
      operator,
      FULL_G.map((grams) => (grams === 455.2 ? 452.5 : grams)),
    );
    await operator.sees("TEST INVALID !");
    await operator.sees(/455\.2/);
    await operator.presses("f", "down");
    await operator.scans("455.20");
    await operator.presses("enter", "enter", "enter", "enter");
    await operator.sees("TEST VALID ✓  PASS ✓");
    await leaves(operator);
  });

  test("a required end point: not checked at first, invalid when a sieve still lets grains through, then proven", async () => {
    const operator = await atWeighFull(BY_RULES);
    await balanceTypes(operator, FULL_G);
    await operator.sees("TEST NOT CHECKED ?");
    await operator.sees("the end point was not checked");
    const passing = FULL_G.map((grams, row) => (row === 2 ? grams - 4 : row === 3 ? grams + 4 : grams));
    await operator.presses("c");
    await operator.sees("check minute");
    await balanceTypes(operator, passing);
    await operator.sees("TEST INVALID !");
    await operator.sees("710 um");
    await operator.presses("c");
    await operator.sees("check minute");
    await balanceTypes(operator, passing);
    await operator.sees("TEST VALID ✓");
    await operator.presses("v");
    await operator.sees("end point reached");
    await operator.sees("ASTM C136");
    await leaves(operator);
  });
});

test("the balance is checked with its weights, and a test set out afterwards knows it", async () => {
  const weights = [
    { weight: "W500", nominalG: 500, toleranceG: 0.03 },
    { weight: "W50", nominalG: 50, toleranceG: 0.02 },
  ];
  const required: Product = {
    ...QUICK_SAND,
    method: { ...QUICK_SAND.method, procedure: { ruleSet: "own", balance: { required: true } } },
  };
  const folder = await stationFolder([required], [], { ...STATION, checkWeights: weights });
  const operator = await startOperator({ args: ["--data", folder] });
  await operator.sees("balance not checked !");
  await operator.presses("b");
  await operator.sees("balance check ·");
  await operator.scans("500.01");
  await operator.sees("within ✓");
  await operator.scans("49.99");
  await operator.sees("checked by");
  await operator.types("KO");
  await operator.presses("enter");
  await operator.sees("balance checked: every weight");
  await operator.sees(/balance ok \d\d:\d\d/);
  await operator.presses("b");
  await operator.sees("balance check ·");
  await operator.scans("501.00");
  await operator.scans("49.99");
  await operator.sees("OFF ✗");
  await operator.presses("enter");
  await operator.sees("balance FAILED its check");
  await leaves(operator);
});
