import { describe, expect, test } from "vitest";
import { FEED_G, PARTITION_PCT, STACK } from "../grading/deck/streams.ts";
import { file, run } from "./inProcess.ts";
import { builtRun } from "./realProcess.ts";

const sheetText = (masses: readonly number[], stack: readonly number[] = STACK) =>
  `aperture_um,net_g\n${masses.map((g, i) => `${stack[i] || "pan"},${Number(g.toPrecision(12))}`).join("\n")}\n`;
const sheet = (name: string, masses: readonly number[], stack?: readonly number[]) =>
  file(name, sheetText(masses, stack));

/** Screen deck B of Tessel Hollow on a good day (invented): each class of its feed parted as PARTITION_PCT says. */
const OVER_G = FEED_G.map((g, i) => (g * (PARTITION_PCT[i] ?? 0)) / 100);
const UNDER_G = FEED_G.map((g, i) => g - (OVER_G[i] ?? 0));
const feed = sheet("feed.csv", FEED_G);
const over = sheet("over.csv", OVER_G);
const under = sheet("under.csv", UNDER_G);

const deck = (...args: string[]) => run(["deck", ...args]);
const json = async (...args: string[]) => JSON.parse((await deck(...args, "--json")).out);

describe("deck --json", () => {
  test("finds share, recoveries and partition numbers that the deck was made with", async () => {
    const found = await json(feed, over, under);
    expect(found.oversizeShare).toBeCloseTo(OVER_G.reduce((sum, g) => sum + g, 0) / 1000, 10);
    expect(found.cutUm).toBe(2800);
    expect(found.oversizeRecovery).toBeCloseTo((20 + 78.4 + 135 + 120) / 450, 10);
    expect(found.undersizeRecovery).toBeCloseTo((176 + 220.8 + 99) / 550, 10);
    expect(found.overallEffectiveness).toBeCloseTo((353.4 / 450) * (495.8 / 550), 10);
    for (const [i, each] of found.partition.entries()) expect(each.toOversizePct).toBeCloseTo(PARTITION_PCT[i]!, 8);
    expect(found.partition.at(-1)).toMatchObject({ pan: true, apertureUm: 0 });
  });

  test("has the keys of the contract first among its own", async () =>
    expect(Object.keys(await json(feed, over, under))).toEqual([
      "oversizeShare",
      "oversizeRecovery",
      "undersizeRecovery",
      "overallEffectiveness",
      "partition",
      "cutSizeUm",
      "imperfection",
      "cutUm",
      "d25Um",
      "d75Um",
      "sharpness",
      "probableErrorUm",
      "ofProducts",
      "balance",
      "interpolation",
      "reasons",
      "assumptions",
      "notes",
    ]));

  test("takes the recoveries at the sieve asked for, in um", async () => {
    const found = await json(feed, over, under, "--cut", "4000");
    expect(found.cutUm).toBe(4000);
    expect(found.oversizeRecovery).toBeCloseTo((20 + 78.4 + 135) / 250, 10);
    expect(found.assumptions).not.toHaveProperty("cutUm");
  });

  test("says why it took the sieve that nobody asked for", async () =>
    expect((await json(feed, over, under)).assumptions.cutUm).toEqual(["2.80 mm, the sieve nearest the cut size"]));

  test("reads the partition curve as asked for", async () => {
    const [straight, smooth] = [
      await json(feed, over, under),
      await json(feed, over, under, "--interpolate", "monotone"),
    ];
    expect([straight.interpolation, smooth.interpolation]).toEqual(["log-linear", "monotone"]);
    expect(smooth.d25Um).not.toBeCloseTo(straight.d25Um, 0);
    expect(smooth.oversizeShare).toBe(straight.oversizeShare);
  });

  test("gives null with the reason, never NaN, for what can't be determined", async () => {
    const stack = [8000, 4000, 0];
    const [f, o, u] = [
      sheet("f.csv", [50, 30, 20], stack),
      sheet("o.csv", [49.9, 29, 19], stack),
      sheet("u.csv", [0.1, 1, 1], stack),
    ];
    const found = await json(f, o, u, "--cut", "4000");
    expect(found.oversizeShare).toBeCloseTo(0.979, 3);
    expect(found.cutSizeUm).toBeNull();
    expect(found.reasons.cutSizeUm).toMatch(/^below 2\.83 mm: even of the finest class \d+ % go over$/);
    expect(found.imperfection).toBeNull();
    expect(found.reasons.imperfection).toContain("below");
  });

  test("tells an unweighed pan, and counts as such what is missing from the charge", async () => {
    const total = UNDER_G.reduce((sum, g) => sum + g, 0);
    const noPan = file("nopan.csv", `# charge_g: ${total.toFixed(2)}\n${sheetText(UNDER_G.slice(0, -1))}`);
    const found = await json(feed, over, noPan);
    expect(found.notes.join("\n")).toContain("undersize: the pan was not weighed");
    expect(found.oversizeShare).toBeCloseTo(0.4076, 6);
  });
});

describe("deck as a page", () => {
  test("names the three efficiencies by their own names, with those of the products' feed beside them", async () => {
    const { code, out, err } = await deck(feed, over, under);
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(out).toMatch(/^oversize share +40\.8 % \+\/- 0\.0$/m);
    expect(out).toMatch(/^recoveries at +2\.80 mm$/m);
    expect(out).toMatch(/^oversize recovery +78\.5 % \(78\.5 %\)$/m);
    expect(out).toMatch(/^undersize recovery +90\.1 % \(90\.1 %\)$/m);
    expect(out).toMatch(/^overall effectiveness +70\.8 % \(70\.8 %\)$/m);
    expect(out).toMatch(/^cut size d50 +3\.07 mm$/m);
    expect(out).not.toMatch(/^(?!overall).*efficiency/im);
  });

  test("has the classes with their partition numbers, and the curve", async () => {
    const { out } = await deck(feed, over, under);
    expect(out).toMatch(/^2\.80 mm +3\.35 mm +20\.0 +29\.4 +13\.5 +60\.0$/m);
    expect(out).toMatch(/^pan +707 um +10\.0 +0\.2 +16\.7 +1\.0$/m);
    expect(out).toContain("class ●   cut size ◆");
    expect(out).toMatch(/^ 50┤.*◆/m);
    expect(out).toMatch(/2\.8 +4 +5\.6 +8 mm/);
  });

  test("says that the samples must belong together, and what the curve rests on", async () => {
    const text = (await deck(feed, over, under)).out.replace(/\s+/g, " ");
    expect(text).toContain("The three samples must belong together");
    expect(text).toContain("read log-linear between them");
    expect(text).toContain("the sieve nearest the cut size");
  });

  test("keeps to 80 columns, and to ASCII where there is no more; a name can't upset the terminal", async () => {
    const odd = file("under\u202e.csv", sheetText(UNDER_G));
    const { out } = await run(["deck", feed, over, odd], { env: { LANG: "C" } });
    expect(out).toMatch(/^[\x00-\x7f]*$/);
    const rows = out.split("\n").filter((row) => !row.startsWith("  "));
    for (const row of rows) expect(row.length).toBeLessThanOrEqual(80);
  });
});

describe("deck refuses in one line", () => {
  const refused = async (args: string[], code: number) => {
    const ran = await deck(...args);
    expect({ code: ran.code, out: ran.out }).toEqual({ code, out: "" });
    expect(ran.err).toMatch(/^sievewright: [^\n]+\n$/);
    return ran.err;
  };

  test("other stacks, 65, with the aperture that is missing and where", async () => {
    const other = sheet("other.csv", [1, 2, 3], [8000, 4000, 0]);
    expect(await refused([feed, other, under], 65)).toContain("the oversize has no 5.60 mm");
  });

  test("streams that can't be of one deck, 65", async () => {
    expect(await refused([feed, over, over], 65)).toContain("the same grading");
    expect(await refused([over, feed, under], 65)).toContain("do not balance");
  });

  test("a cut that is no sieve of the stack, 65, and one that is no number, 64", async () => {
    expect(await refused([feed, over, under, "--cut", "3000"], 65)).toContain("3.00 mm is none");
    expect(await refused([feed, over, under, "--cut", "coarse"], 64)).toContain("--cut coarse");
  });

  test("a sheet that isn't there, 66, and one that is bad, 65, each by its name", async () => {
    expect(await refused([feed, over, "none.csv"], 66)).toContain("none.csv: there is no such file");
    const bad = file("bad.csv", "aperture_um,net_g\n1000,x\n");
    expect(await refused([feed, bad, under], 65)).toContain("bad.csv: line 2");
  });

  test("two sheets from standard input, or fewer than three, 64", async () => {
    expect(await refused(["-", "-", under], 64)).toContain("only one of the three");
    expect(await refused([feed, over], 64)).toContain("missing required argument 'undersize'");
  });
});

describe("the built program", () => {
  test("reads one of the sheets from a pipe", () => {
    const { status, stdout, stderr } = builtRun(["deck", "-", over, under, "--json"], sheetText(FEED_G));
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    expect(JSON.parse(stdout).overallEffectiveness).toBeCloseTo(0.70794, 4);
  });

  test("ends with 65 when the stacks differ", () => {
    const { status, stdout, stderr } = builtRun(["deck", feed, "-", under], "aperture_um,net_g\n8000,1\npan,2\n");
    expect({ status, stdout }).toEqual({ status: 65, stdout: "" });
    expect(stderr).toMatch(/^sievewright: feed, oversize and undersize need the same stack[^\n]+\n$/);
  });
});
