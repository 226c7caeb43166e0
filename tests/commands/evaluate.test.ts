import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { EvaluationSchema } from "../../src/record/evaluation.ts";
import { file, folder, type Ran, run, shared } from "./inProcess.ts";

const sheet = shared("sheets/TH-0510.csv");
const th0510 = shared("products/TH-0510.json");
const product = (change: object) => file("product.json", { ...JSON.parse(readFileSync(th0510, "utf8")), ...change });
const evaluated = ({ out }: Ran) => EvaluationSchema.parse(JSON.parse(out));
/** What the command itself tells; open ends are told by the assessment of any stack as short as these. */
const notices = (ran: Ran) =>
  evaluated(ran)
    .notices.filter(({ id }) => id !== "open-end")
    .map(({ id, severity }) => `${id} ${severity}`);
const refusal = (code: number, err: string) => ({ code, out: "", err: `sievewright: ${err}\n` });

describe("the exit code is the verdict", () => {
  test("0: pass", async () => {
    const ran = await run(["evaluate", sheet, "--product", th0510]);
    expect(ran).toMatchObject({ code: 0, err: "" });
    expect(ran.out).toContain("TEST VALID ✓   PRODUCT PASS ✓");
  });

  test("0: nothing to judge against, and the page says so", async () => {
    const ran = await run(["evaluate", file("a.csv", "aperture_um,net_g\n63,5\npan,1\n")]);
    expect(ran).toMatchObject({ code: 0, err: "" });
    expect(ran.out).toContain("there is nothing to judge against");
  });

  test("1: fail", async () => {
    const strict = product({ values: [{ id: "percentileUm", passingPct: 50, max: 700 }] });
    expect(await run(["evaluate", sheet, "--product", strict])).toMatchObject({ code: 1, err: "" });
  });

  test("2: a limit that can't be determined is no pass", async () => {
    const more = product({ envelope: [{ apertureUm: 900, passingPct: { min: 10 } }] });
    const ran = await run(["evaluate", sheet, "--product", more, "--json"]);
    expect(ran.code).toBe(2);
    expect(evaluated(ran).verdict.product).toBe("not judged");
    expect(evaluated(ran).verdict.limits[0]).toMatchObject({
      on: "passingPct@900",
      value: null,
      result: "not determinable",
    });
  });

  test("1: a limit that is missed fails, whatever else can't be determined", async () => {
    const both = product({
      envelope: [
        { apertureUm: 900, passingPct: { min: 10 } },
        { apertureUm: 500, passingPct: { max: 1 } },
      ],
    });
    expect(await run(["evaluate", sheet, "--product", both])).toMatchObject({ code: 1 });
  });

  test("3: an invalid test comes before everything else", async () => {
    const lost = file("lost.csv", readFileSync(sheet, "utf8").replace("charge_g: 300.20", "charge_g: 320"));
    const strict = product({ values: [{ id: "percentileUm", passingPct: 50, max: 700 }] });
    const ran = await run(["evaluate", lost, "--product", strict]);
    expect(ran).toMatchObject({ code: 3, err: "" });
    expect(ran.out).toContain("TEST INVALID !   PRODUCT NOT JUDGED –");
  });
});

describe("which product", () => {
  const library = async (...files: string[]) => {
    const data = folder();
    for (const one of files)
      expect(await run(["product", "add", one, "--data", data, "--by", "KO"])).toMatchObject({ code: 0 });
    return data;
  };

  test("the one on the sheet, if the library has it", async () => {
    const data = await library(th0510);
    const ran = await run(["evaluate", sheet, "--data", data, "--json"]);
    expect(ran.code).toBe(0);
    expect(evaluated(ran).verdict).toMatchObject({ test: "valid", product: "pass" });
  });

  test("one on the sheet that the library lacks is a warning, not judged, exit 0, and nothing is made", async () => {
    const data = join(folder(), "nowhere");
    const ran = await run(["evaluate", sheet, "--data", data, "--json"]);
    expect(ran).toMatchObject({ code: 0, err: "" });
    expect(evaluated(ran).verdict.product).toBe("not judged");
    expect(evaluated(ran).notices).toEqual([
      {
        id: "product-unknown",
        severity: "warning",
        text: `the sheet names TH-0510, not judged: it is not in the library of ${data}, or not in force today`,
      },
    ]);
    expect(existsSync(data)).toBe(false);
  });

  test("a code, of the revision in force on the station's production day", async () => {
    const data = await library(
      product({ revision: 1, effective: "2026-01-01" }),
      product({ revision: 2, effective: "2026-12-01", values: [{ id: "percentileUm", passingPct: 50, max: 700 }] }),
    );
    const args = ["evaluate", sheet, "--product", "TH-0510", "--data", data];
    expect(await run(args, { now: "2026-12-01T05:59:59+01:00" })).toMatchObject({ code: 0 });
    expect(await run(args, { now: "2026-12-01T06:00:00+01:00" })).toMatchObject({ code: 1 });
    expect(await run(args, { now: "2025-12-31T12:00:00+01:00" })).toEqual(
      refusal(66, "product TH-0510: no revision is in force on 2025-12-31; the first is from 2026-01-01"),
    );
  });

  test("a code that the library lacks is refused, 66", async () => {
    const data = folder();
    const ran = await run(["evaluate", sheet, "--product", "TH-9999", "--data", data]);
    expect(ran).toMatchObject({ code: 66, out: "" });
    expect(ran.err).toBe(
      `sievewright: product TH-9999: neither in the library of ${data} nor a file here: load it with "sievewright product add FILE", or name its file\n`,
    );
    expect(readdirSync(data)).toEqual([]);
  });

  test("SIEVEWRIGHT_DATA names the folder as well", async () => {
    const data = await library(th0510);
    const ran = await run(["evaluate", sheet, "--json"], { env: { SIEVEWRIGHT_DATA: data } });
    expect(evaluated(ran).verdict.product).toBe("pass");
  });

  test("the one on the command line wins over the one on the sheet, and that is told", async () => {
    const ran = await run(["evaluate", sheet, "--product", product({ code: "TH-0511" }), "--json"]);
    expect(notices(ran)).toEqual(["product-other warning"]);
  });

  test("a library that can't be read is told, and its files stay as they are", async () => {
    const data = await library(th0510);
    const path = join(data, "library", "products", "TH-0510.rev3.json");
    writeFileSync(path, "{ torn");
    const ran = await run(["evaluate", sheet, "--data", data, "--json"]);
    expect(evaluated(ran).notices[0]?.text).toMatch(
      /^the sheet names TH-0510, not judged: library\/products\/TH-0510\.rev3\.json can't be read/,
    );
    expect(await run(["evaluate", sheet, "--data", data, "--product", "TH-0510"])).toMatchObject({ code: 66, out: "" });
    expect(readFileSync(path, "utf8")).toBe("{ torn");
    expect(readdirSync(join(data, "library", "products"))).toEqual(["TH-0510.rev3.json"]);
  });

  test("it works beside a station that is in use, without its lock", async () => {
    const data = await library(th0510);
    writeFileSync(join(data, "station.lock"), "somebody else");
    expect(await run(["evaluate", sheet, "--data", data])).toMatchObject({ code: 0, err: "" });
    expect(readFileSync(join(data, "station.lock"), "utf8")).toBe("somebody else");
  });

  test("a product file with a fault is refused by line, column and field", async () => {
    const bad = product({ revision: "3" });
    expect(await run(["evaluate", sheet, "--product", bad])).toEqual(
      refusal(65, `${bad}: line 5, column 15: revision must be a number`),
    );
  });

  test("a product file that is not there is refused, 66", async () => {
    expect(await run(["evaluate", sheet, "--product", "./no.json"])).toEqual(
      refusal(66, "./no.json: there is no such file: check the name"),
    );
  });
});

describe("choices of the run", () => {
  test("the basis: of the recovered total by default, of the charge if asked for", async () => {
    const [recovered, charge] = [
      await run(["evaluate", sheet, "--json"]),
      await run(["evaluate", sheet, "--json", "--basis", "charge"]),
    ];
    expect(evaluated(recovered).fractions[0]?.retainedPct).toBeCloseTo((100 * 5.71) / 299.9, 10);
    expect(evaluated(charge).fractions[0]?.retainedPct).toBeCloseTo((100 * 5.71) / 300.2, 10);
    expect([evaluated(recovered).basis, evaluated(charge).basis]).toEqual(["recovered", "charge"]);
  });

  test("the command line beats the product", async () => {
    const own = product({ method: { basis: "charge", interpolation: "linear" } });
    const args = ["evaluate", sheet, "--product", own, "--json"];
    expect(evaluated(await run(args))).toMatchObject({ basis: "charge", interpolation: "linear" });
    expect(evaluated(await run([...args, "--basis", "recovered", "--interpolate", "monotone"]))).toMatchObject({
      basis: "recovered",
      interpolation: "monotone",
    });
  });

  test.each(["log-linear", "linear", "log-probability", "monotone"])(
    "interpolation %s reads its own d50",
    async (way) => {
      const { percentilesUm, interpolation } = evaluated(
        await run(["evaluate", sheet, "--json", "--interpolate", way]),
      );
      expect(interpolation).toBe(way);
      expect(percentilesUm["50"]).toMatchObject({ determinable: true, unit: "um" });
    },
  );

  test("of the charge without a charge is refused, with what to do", async () => {
    const net = file("a.csv", "aperture_um,net_g\n63,5\npan,1\n");
    expect(await run(["evaluate", net, "--basis", "charge"])).toEqual(
      refusal(65, `${net}: percentages of the charge need the charge: weigh it`),
    );
  });
});

describe("what is told besides", () => {
  test("a pan that was not weighed", async () => {
    const ran = await run(["evaluate", "-", "--json"], {
      stdin: "# charge_g: 100\naperture_um,net_g\n125,60\n63,30\n",
    });
    expect(notices(ran)).toEqual(["pan-assumed warning"]);
    expect(evaluated(ran).notices[0]?.text).toContain("10.00 g");
    expect(evaluated(ran)).toMatchObject({
      chargeG: 100,
      lossG: null,
      lossPct: null,
      verdict: { test: "not checked" },
    });
    expect(evaluated(ran).fractions.at(-1)).toMatchObject({ pan: true, netG: 10 });
  });

  test("a moisture on the sheet, which changes no figure", async () => {
    const sheetOf = (keys: string) => ({ stdin: `${keys}aperture_um,net_g\n125,60\n63,30\npan,10\n` });
    const [dry, moist] = [
      await run(["evaluate", "-", "--json"], sheetOf("")),
      await run(["evaluate", "-", "--json"], sheetOf("# moisture_pct: 4.5\n")),
    ];
    expect(notices(moist)).toEqual(["moisture-unused note"]);
    expect({ ...evaluated(moist), notices: [] }).toEqual({ ...evaluated(dry), notices: [] });
  });

  test("a sieve that is lighter full than empty by no more than the balance reads", async () => {
    const ran = await run(["evaluate", "-", "--json"], {
      stdin: "aperture_um,empty_g,full_g\n125,400.01,400\n63,1,30\npan,1,2\n",
    });
    expect(notices(ran)).toEqual(["below-empty note"]);
    expect(evaluated(ran).fractions[0]?.netG).toBe(0);
  });
});

describe("how sure the result is", () => {
  const guarded = (max: number) =>
    product({ envelope: [{ apertureUm: 500, passingPct: { max } }], values: [], decision: { rule: "guarded" } });

  test("2: a guarded limit that is met by too little is borderline, and the page says why and what would help", async () => {
    const ran = await run(["evaluate", sheet, "--product", guarded(13)]);
    expect(ran).toMatchObject({ code: 2, err: "" });
    const words = ran.out.replace(/\s+/g, " ");
    expect(words).toContain("PRODUCT BORDERLINE ~");
    expect(words).toMatch(
      /decides: passing 500 um 11\.91 % ±\d\.\d\d, BORDERLINE: inside at most 13 by 1\.09 % points/,
    );
    expect(words).toContain("helps: certified apertures of the sieves");
    expect(words).toContain("drift of the zero, because nothing is known of the balance");
    expect((await run(["evaluate", sheet, "--product", guarded(20)])).code).toBe(0);
    expect((await run(["evaluate", sheet, "--product", guarded(11)])).code).toBe(1);
  });

  test("--monte-carlo compares the draws, says where they are used, and the same seed draws the same", async () => {
    const args = ["evaluate", sheet, "--product", guarded(13), "--monte-carlo", "--json", "--seed"];
    const [one, again, other] = [await run([...args, "7"]), await run([...args, "7"]), await run([...args, "8"])];
    expect(one.out).toBe(again.out);
    expect(one.out).not.toBe(other.out);
    const { uncertainty, verdict } = evaluated(one);
    if (!uncertainty?.monteCarlo) throw new Error("nothing was drawn");
    expect(uncertainty.monteCarlo).toMatchObject({ seed: 7 });
    expect(uncertainty.monteCarlo.draws).toBeGreaterThanOrEqual(20_000);
    const byDraws = new Set(uncertainty.monteCarlo.compared.filter(({ agree }) => !agree).map(({ on }) => on));
    expect(byDraws.size).toBeGreaterThan(0);
    for (const { apertureUm, sure } of uncertainty.passingPct) {
      const by = byDraws.has(`passingPct@${apertureUm}`) ? "monte carlo" : "first order";
      expect(sure).toMatchObject({ determinable: true, by });
    }
    const at500 = uncertainty.passingPct.find(({ apertureUm }) => apertureUm === 500)?.sure;
    expect(verdict.limits[0]?.guarded?.u).toBe(at500?.determinable ? at500.u : null);
  });

  test("--monte-carlo on a page names the seed and where the ways differ", async () => {
    const ran = await run(["evaluate", sheet, "--product", th0510, "--monte-carlo"]);
    expect(ran.out.replace(/\s+/g, " ")).toMatch(
      /Monte Carlo: \d+ draws, seed 1.* numbers compared\. .*there u is that of the draws, and two ends hold 95\.45 % of them\./,
    );
    expect(ran.out).toMatch(/passing +± or 95\.45 %/);
    expect(ran.out).toMatch(/all, 95\.45 %$/m);
    expect(ran.out.replace(/\s+/g, " ")).toContain("conforms, guard and risk are by the normal distribution with u");
    expect(ran.out.replace(/\s+/g, " ")).toContain("the interval that holds 95.45 % of the draws");
  });

  test("64: a seed without draws", async () =>
    expect(await run(["evaluate", sheet, "--seed", "7"])).toEqual(
      refusal(64, "--seed is for the draws of --monte-carlo: give both or neither"),
    ));

  test("an interval never reaches below 0 or beyond 100 %", async () => {
    const fine = file("fine.csv", "# charge_g: 100\naperture_um,net_g\n1000,0.02\n500,60\n250,39.9\npan,0.05\n");
    for (const draws of [[], ["--monte-carlo"]]) {
      const { uncertainty } = evaluated(await run(["evaluate", fine, "--json", ...draws]));
      for (const { sure } of uncertainty?.passingPct ?? []) {
        if (!sure.determinable) throw new Error(sure.reason);
        expect(sure.low).toBeGreaterThanOrEqual(0);
        expect(sure.high).toBeLessThanOrEqual(100);
      }
    }
  });
});

describe("the forms of the result", () => {
  test("JSON is the contract's, whatever the sheet's form", async () => {
    for (const name of ["TH-0510.csv", "TH-MAS.json", "TH-PG3.csv"]) {
      const ran = await run(["evaluate", shared(`sheets/${name}`), "--json"]);
      expect(EvaluationSchema.safeParse(JSON.parse(ran.out)).error).toBeUndefined();
    }
  });

  test("CSV has a row for each sieve and the pan", async () => {
    const ran = await run(["evaluate", sheet, "--csv"]);
    expect(ran.out.split("\r\n").map((row) => row.split(",")[0])).toEqual([
      "aperture_um",
      "1400",
      "1000",
      "710",
      "500",
      "355",
      "pan",
      "",
    ]);
    expect(ran.out.split("\r\n")[1]).toMatch(/,TH-0510,4471-B,Dryer 1,9[\d.]+,\d+\.?\d*$/);
  });

  test("the page has the curve, and the moment and program that made it", async () => {
    const { out } = await run(["evaluate", sheet, "--product", th0510]);
    expect(out).toContain("passing % over aperture");
    expect(out).toMatch(/evaluated 2026-11-24 03:12 by Sievewright 0\.0\.0-test\n$/);
  });

  test("where only ASCII can be drawn the page is ASCII, and no verdict loses its word", async () => {
    const { out } = await run(["evaluate", sheet, "--product", th0510], { env: { LANG: "C" } });
    expect(out).toMatch(/^[\x20-\x7e\n]+$/);
    expect(out).toContain("TEST VALID +   PRODUCT PASS +");
  });
});

describe("from standard input", () => {
  test("- reads it, as CSV or JSON", async () => {
    const csv = await run(["evaluate", "-", "--json"], { stdin: readFileSync(sheet, "utf8") });
    const json = await run(["evaluate", "-", "--json"], { stdin: readFileSync(shared("sheets/TH-MAS.json"), "utf8") });
    expect([csv.code, json.code]).toEqual([0, 0]);
  });

  test("a fault is told with its name", async () =>
    expect(await run(["evaluate", "-"], { stdin: "aperture_um,net_g\n63,x\n" })).toEqual(
      refusal(65, 'standard input: line 2, net_g: "x" is not a number'),
    ));

  test("nothing, or too much", async () => {
    expect(await run(["evaluate", "-"])).toEqual(refusal(65, "standard input: is empty"));
    expect(await run(["evaluate", "-"], { stdin: "x".repeat(3_000_000) })).toEqual(
      refusal(65, "standard input: is larger than 1 MiB: this is not a file for Sievewright"),
    );
  });
});

describe("wrong use is 64, with one line and the help page to read", () => {
  test.each([
    [["evaluate"], "missing required argument 'sheet'; see sievewright evaluate --help"],
    [
      ["evaluate", "a", "b"],
      "too many arguments for 'evaluate'. Expected 1 argument but got 2; see sievewright evaluate --help",
    ],
    [["evaluate", "a", "--jsno"], "unknown option '--jsno' (Did you mean --json?); see sievewright evaluate --help"],
    [
      ["evaluate", "a", "--json", "--csv"],
      "option '--json' cannot be used with option '--csv'; see sievewright evaluate --help",
    ],
    [
      ["evaluate", "a", "--product"],
      "option '--product <code|file>' argument missing; see sievewright evaluate --help",
    ],
    [
      ["evaluate", "a", "--basis", "all"],
      "option '--basis <mass>' argument 'all' is invalid. Allowed choices are recovered, charge; see sievewright evaluate --help",
    ],
    [
      ["evaluate", "a", "--interpolate", "cubic"],
      "option '--interpolate <way>' argument 'cubic' is invalid. Allowed choices are log-linear, linear, log-probability, monotone; see sievewright evaluate --help",
    ],
    [["weigh"], "unknown command 'weigh'; see sievewright --help"],
    [["--wide"], "unknown option '--wide'; see sievewright --help"],
    [["product"], "name what to do; see sievewright product --help"],
    [["product", "eat"], "unknown command 'eat'; see sievewright product --help"],
  ])("%j", async (argv, err) => expect(await run(argv)).toEqual(refusal(64, err)));
});

describe("help and version are results", () => {
  test("--version", async () => expect(await run(["--version"])).toEqual({ code: 0, out: "0.0.0-test\n", err: "" }));

  test.each([[[]], [["--help"]], [["evaluate", "--help"]], [["product", "--help"]], [["product", "add", "--help"]]])(
    "%j",
    async (argv) => {
      const ran = await run(argv.length === 0 ? ["--help"] : argv);
      expect(ran).toMatchObject({ code: 0, err: "" });
      expect(ran.out).toMatch(/^Usage: sievewright/);
    },
  );

  test("the help page of evaluate tells every exit code", async () => {
    const { out } = await run(["evaluate", "--help"]);
    for (const code of [0, 1, 2, 3, 64, 65, 66, 74]) expect(out).toMatch(new RegExp(`(^|\\s)${code}  `, "m"));
    expect(out).toContain("such a product has not passed");
  });
});

test("a name with escape sequences can't draw on the terminal", async () => {
  const { err } = await run(["evaluate", "no\u001b[2J\nfile"]);
  expect(err).toBe("sievewright: no· file: there is no such file: check the name\n");
});

test("whatever comes in, 64 and above print nothing but one line on standard error; below, nothing there", () =>
  fc.assert(
    fc.asyncProperty(
      fc.oneof(
        fc.string({ unit: "binary" }),
        fc.string({ unit: fc.constantFrom(...'#:;,\n"pan63.-{}[]'), maxLength: 60 }),
      ),
      fc.constantFrom([], ["--json"], ["--csv"], ["--basis", "charge"], ["--product", th0510]),
      async (text, options) => {
        const ran = await run(["evaluate", "-", ...options], { stdin: text });
        if (ran.code >= 64) {
          expect(ran.out).toBe("");
          expect(ran.err).toMatch(/^sievewright: [^\p{Cc}]+\n$/u);
        } else expect(ran.err).toBe("");
      },
    ),
    { numRuns: 150 },
  ));

describe("a product that draws its curve over certified apertures", () => {
  const over = product({ method: { apertures: "certified" } });
  const serials = file(
    "serials.csv",
    readFileSync(sheet, "utf8")
      .replace("empty_g,full_g", "empty_g,full_g,sieve")
      .replaceAll(/^(\d+),.*$/gm, (row, um) => `${row},S-${um}`)
      .replace(/^pan,.*$/m, (row) => `${row},`),
  );
  const station = async () => {
    const data = folder();
    const items = [1400, 1000, 710, 500, 355].map((apertureUm) =>
      file(`s${apertureUm}.json`, {
        schema: "sievewright.sieve/1",
        serial: `S-${apertureUm}`,
        apertureUm,
        certificate: {
          day: "2026-03-02",
          laboratory: "Invented Metrology",
          warp: { meanUm: apertureUm * (apertureUm === 355 ? 0.995 : 1.005) },
          expandedUm: 1,
        },
      }),
    );
    expect(await run(["product", "add", th0510, "--data", data, "--by", "SB"])).toMatchObject({ code: 0 });
    expect(await run(["register", ...items, "--data", data, "--by", "SB"])).toMatchObject({ code: 0 });
    return data;
  };

  test("takes them from the register of the station by the sheet's serials", async () => {
    const ran = await run(["evaluate", serials, "--product", over, "--data", await station(), "--json"]);
    expect(ran).toMatchObject({ code: 0, err: "" });
    const { apertures, verdict, fractions } = evaluated(ran);
    expect(apertures?.of.map((one) => [one.serial, one.meanUm])).toEqual([
      ["S-1400", expect.closeTo(1407, 9)],
      ["S-1000", expect.closeTo(1005, 9)],
      ["S-710", expect.closeTo(713.55, 9)],
      ["S-500", expect.closeTo(502.5, 9)],
      ["S-355", expect.closeTo(353.225, 9)],
    ]);
    expect(verdict.product).toBe("pass");
    const at1000 = verdict.limits.find(({ on }) => on === "passingPct@1000")?.value ?? 0;
    expect(at1000).toBeLessThan(fractions[1]?.passingPct ?? 0);
    expect(at1000).toBe(apertures?.of[1]?.passingAtNominalPct);
  });

  test.each([
    ["without a station", serials, "no register could be read"],
    ["without serials", sheet, "no serial is told"],
  ])("%s is not judged, and is told why: the exit code is no pass", async (_name, of, why) => {
    const ran = await run(["evaluate", of, "--product", over, "--data", join(folder(), "none"), "--json"]);
    expect(ran.code).toBe(2);
    expect(evaluated(ran).verdict.product).toBe("not judged");
    expect(evaluated(ran).notices.find(({ id }) => id === "aperture-unknown")?.text).toContain(why);
  });
});
