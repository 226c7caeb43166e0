import { beforeAll, describe, expect, test } from "vitest";
import { expectNear } from "../grading/near.ts";
import coal from "../published/examples/n-iso5725-coal.json" with { type: "json" };
import { file, folder, run } from "./inProcess.ts";

const data = folder();
const replicates = (...argv: string[]) => run(["replicates", ...argv, "--data", data]);
let lot = "";
let numbers: string[] = [];

interface Logged {
  readonly kind: string;
  readonly number: number;
  readonly test?: { readonly lot: string; readonly product: { readonly code: string } };
}

beforeAll(async () => {
  expect(await run(["demo", "--data", data, "--fill", "40", "--seed", "3"])).toMatchObject({ code: 0, err: "" });
  const { out } = await run(["log", "--json", "--product", "TH-0510", "--data", data]);
  const tests = out
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line) as Logged)
    .filter(({ kind }) => kind === "test");
  const lots = [...new Set(tests.map((entry) => entry.test?.lot ?? ""))];
  const ofLot = (name: string) => tests.filter((entry) => entry.test?.lot === name);
  lot = lots.toSorted((a, b) => ofLot(b).length - ofLot(a).length)[0] ?? "";
  numbers = ofLot(lot).map(({ number }) => `${number}`);
}, 60_000);

const COAL = coal.levels.flatMap(({ results }, level) =>
  results.flatMap((values, i) => values.map((value, j) => `laboratory ${i + 1},level ${level + 1},${j + 1},${value}`)),
);
const coalFile = () => file("coal.csv", `station,figure,portion,value\n${COAL.join("\n")}\n`);

describe("replicates of tests at one station", () => {
  test("--json has every key that other programs rely on", async () => {
    const { code, out, err } = await replicates(...numbers, "--json");
    expect({ code, err }).toEqual({ code: 0, err: "" });
    const told = JSON.parse(out);
    expect(told).toMatchObject({ schema: "sievewright.replicates/1", product: "TH-0510", limitFactor: 2.8 });
    expect(told.tests.map(({ number }: { number: number }) => `${number}`)).toEqual(numbers);
    const [first] = told.figures;
    expect(first).toMatchObject({ on: "passingPct@1400", determinable: true, unit: "%", count: numbers.length });
    expectNear(first.r, 2.8 * first.sr, 1e-12);
    expect(first.values).toHaveLength(numbers.length);
    expect(first.honesty).toMatchObject({ test: "chi-square", verdict: expect.any(String) });
    expect(first.honesty.ratioLow).toBeLessThan(first.honesty.ratioHigh);
    expect(Object.keys(first)).toEqual(expect.arrayContaining(["mean", "grubbs", "grubbsPair", "words"]));
  });

  test("a lot gives the same as its tests by number", async () => {
    const [byNumber, byLot] = [await replicates(...numbers), await replicates("--lot", lot)];
    expect(byLot).toEqual(byNumber);
    expect(byLot.out).toContain(`${numbers.length} tests: no. ${numbers.join(", no. ")}`);
    expect(byLot.out).toContain("r = 2.8 s_r");
    for (const row of byLot.out.split("\n")) expect(row.length).toBeLessThanOrEqual(80);
  });

  test.each([
    [["7"], "give the numbers of two tests at least, or --lot"],
    [["7", "x"], '"x" is no entry number'],
    [["7", "8", "--lot", "L"], "give either the numbers of tests, or --lot, or --results"],
    [["7", "8", "--stations", "a", "b"], "name the lot that all of them tested with --lot"],
    [["--lot", "L", "--stations", "a"], "name the folders of two stations at least"],
  ])("%j is wrong use", async (argv, told) => {
    const ended = await run(["replicates", ...argv]);
    expect(ended).toMatchObject({ code: 64, out: "" });
    expect(ended.err).toContain(told);
  });

  test("numbers that are no tests, and a lot that nobody tested, are not found", async () => {
    expect(await replicates("100001", "100002")).toMatchObject({ code: 66, out: "" });
    const none = await replicates("--lot", "no such lot");
    expect(none).toMatchObject({ code: 66, out: "" });
    expect(none.err).toContain("0 tests to look at together, it takes two");
  });
});

describe("replicates between stations", () => {
  test("the published example of ISO 5725-2 comes out of a CSV as it is printed", async () => {
    const { code, out } = await run(["replicates", "--results", coalFile(), "--json"]);
    expect(code).toBe(0);
    const told = JSON.parse(out);
    expect(told.schema).toBe("sievewright.reproducibility/1");
    coal.levels.forEach(({ published }, i) => {
      // ISO 5725-2:1994, annex B, example 1 (memory): printed to three decimals, the mean of one level to two.
      expectNear(told.figures[i].mean, published.mean, 0, 0.0005);
      expectNear(told.figures[i].sr, published.sr, 0, 0.0005);
      expectNear(told.figures[i].sR, published.sR, 0, 0.0005);
      expectNear(told.figures[i].R, 2.8 * told.figures[i].sR, 1e-12);
    });
    expect(told.figures[0].stations[0]).toMatchObject({ station: "laboratory 1", count: 4, h: expect.any(Number) });
    expect(told.figures[0]).toMatchObject({ cochran: { word: "none" }, grubbs: { word: "none" } });
  });

  test("the page names who stands out, by which test, against which critical values", async () => {
    const { out } = await run(["replicates", "--results", coalFile()]);
    expect(out).toMatch(/s_r 0\.0151, s_L 0\.0216, s_R 0\.0264; r 0\.0423, R 0\.0738/);
    expect(out).toMatch(/Cochran: laboratory 8 has 0\.350 of all variance, critical 0\.516 at 5 %/);
    expect(out).toMatch(/laboratory 6 .* h outlier/);
    for (const row of out.split("\n")) expect(row.length).toBeLessThanOrEqual(80);
  });

  test("the same lot at two stations, told apart by folder where both bear one code", async () => {
    const other = folder();
    await run(["demo", "--data", other, "--fill", "40", "--seed", "3"]);
    const { code, out, err } = await run(["replicates", "--lot", lot, "--stations", data, other, "--json"]);
    expect({ code, err }).toEqual({ code: 0, err: "" });
    const [first] = JSON.parse(out).figures;
    expect(first.stations.map(({ station }: { station: string }) => station)).toEqual([
      `TH-DRY1 (${data})`,
      `TH-DRY1 (${other})`,
    ]);
    // Both demos are the same to the last gram: nothing differs between them.
    expect(first).toMatchObject({ on: "passingPct@1400", sL: 0 });
    expect(await run(["replicates", "--lot", "none", "--stations", data, other])).toMatchObject({ code: 66 });
  });

  test("a file with a fault, or with nothing to compare, is bad data", async () => {
    const faulty = await run(["replicates", "--results", file("r.csv", "station,value\nA,x\n")]);
    expect(faulty).toMatchObject({ code: 65, out: "" });
    expect(faulty.err).toContain("line 2: value:");
    const alone = await run(["replicates", "--results", file("r.csv", "station,value\nA,1\nA,2\n")]);
    expect(alone).toMatchObject({ code: 65, out: "" });
    expect(alone.err).toContain("results of at least two stations are needed");
  });
});
