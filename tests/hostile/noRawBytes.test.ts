import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, describe, expect, test } from "vitest";
import { frameOf } from "../../src/screens/frame.ts";
import { textOf } from "../../src/screens/line.ts";
import { readingOf } from "../../src/screens/readingFrame.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import { file, folder, run } from "../commands/inProcess.ts";
import { builtRun } from "../commands/realProcess.ts";
import { FILTER_SAND } from "../run/hands.ts";
import { anApp, recordedEntry, recordedRow, STATION, Stage } from "../screens/stage.ts";
import { must, opened } from "../store/opened.ts";
import { draft } from "../store/records.ts";
import { operatorsLeave, startOperator } from "../terminal/operator.ts";
import { ALL_UNSEEN, OBEYED, SEQUENCES, UNSEEN } from "./evil.ts";

afterEach(operatorsLeave);

const posix = process.platform !== "win32";
const evilProduct = { ...FILTER_SAND, name: `sand ${ALL_UNSEEN}` };

/** A closed station in whose every field of text stands what a field of text takes and nobody sees. */
async function evilStation(): Promise<string> {
  const at = folder();
  const create = { ...STATION, plant: `plant ${ALL_UNSEEN}`, lines: [`line ${ALL_UNSEEN}`] };
  const store = await opened(at, { create });
  const { number: _n, day: _d, station: _s, previous: _p, ...entry } = recordedEntry(1, `lot ${ALL_UNSEEN}`);
  const test = { ...entry.test, product: evilProduct, line: `line ${ALL_UNSEEN}`, remark: `remark ${ALL_UNSEEN}` };
  const recorded = must(await store.record({ ...entry, test }));
  const of = { testId: test.testId, day: recorded.day, number: recorded.number };
  const now = { at: "2026-11-24T08:00:00+01:00", by: "KO" };
  must(await store.record({ kind: "note", ...now, text: `note ${ALL_UNSEEN}` }));
  must(await store.record({ kind: "voided", ...now, of, reason: `reason ${ALL_UNSEEN}` }));
  const loading = { fromPath: `from ${ALL_UNSEEN}`, bytesSha256: "a".repeat(64), ...now };
  must(await store.addProduct(evilProduct, loading));
  must(await store.saveDraft({ ...draft("T-2", 2), lot: `lot ${ALL_UNSEEN}`, remark: ALL_UNSEEN }));
  await store.close();
  return at;
}

const COMMANDS: readonly (readonly string[])[] = [
  ["log"],
  ["record", "1"],
  ["record", "1", "--original"],
  ["handover"],
  ["product", "list"],
  ["product", "show", "TH-0510"],
  ["operator", "list"],
  ["program", "list"],
  ["verify"],
  ["reindex"],
];
const WITH_JSON = new Set(["log", "record", "handover", "product", "operator", "program", "verify", "reindex"]);

describe("what nobody sees in fields of text is seen where it is printed", () => {
  test("in the text of every command that prints some", async () => {
    const data = await evilStation();
    let marks = 0;
    for (const command of COMMANDS) {
      const { out, err } = await run([...command, "--data", data]);
      expect([command, out + err]).not.toEqual([command, ""]);
      expect(JSON.stringify(`${command.join(" ")}: ${out}${err}`.match(OBEYED))).toBe("null");
      marks += out.split("·").length - 1;
    }
    expect(marks).toBeGreaterThan(40);
  });

  test("in the JSON of every command, escaped, and it parses to what was recorded", async () => {
    const data = await evilStation();
    let escaped = 0;
    for (const command of COMMANDS.filter(([name = ""]) => WITH_JSON.has(name) && name !== "record")) {
      const { out } = await run([...command, "--json", "--data", data]);
      expect(JSON.stringify(`${command.join(" ")}: ${out}`.match(OBEYED))).toBe("null");
      escaped += out.split("\\u200b").length - 1;
    }
    expect(escaped).toBeGreaterThan(3);
    const { out } = await run(["record", "1", "--json", "--data", data]);
    expect(JSON.parse(out).entry.test.remark).toBe(`remark ${ALL_UNSEEN}`);
  });

  test("in the result of a sheet, as page, CSV and JSON", async () => {
    const sheet = `# lot: lot ${ALL_UNSEEN}\n# line: ${ALL_UNSEEN}\naperture_um,net_g\n500,3\n250,2\npan,1\n`;
    for (const look of [[], ["--csv"], ["--json"]]) {
      const { code, out, err } = await run(["evaluate", "-", ...look], { stdin: sheet });
      expect([code, err]).toEqual([0, ""]);
      expect(out).not.toMatch(OBEYED);
    }
  });
});

describe("a sequence that a terminal would obey, in a file that is handed in", () => {
  test.each(SEQUENCES)("%s: no field takes it, and the message about it is clean", async (_, text) => {
    const inProduct = file("product.json", { ...FILTER_SAND, name: text });
    const asName = file("named.json", { ...FILTER_SAND, [text]: 1 });
    const asCode = file("coded.json", { ...FILTER_SAND, code: text });
    const asKind = file("kind.json", { schema: text });
    const sheet = file("sheet.csv", `# lot: ${text}\naperture_um,net_g\n500,3\npan,1\n`);
    const column = file("column.csv", `aperture_um,${text}\n500,3\n`);
    const cell = file("cell.csv", `aperture_um,net_g\n500,${text}\npan,1\n`);
    const data = folder();
    for (const path of [inProduct, asName, asCode, asKind]) {
      const { code, out, err } = await run(["product", "add", path, "--data", data]);
      expect([code, out]).toEqual([65, ""]);
      expect(err).toMatch(/^sievewright: [^\n]+\n$/);
      expect(err).not.toMatch(OBEYED);
    }
    for (const path of [sheet, column, cell]) {
      const { out, err } = await run(["evaluate", path]);
      expect(out + err).not.toMatch(OBEYED);
    }
  });

  test.each(SEQUENCES.filter(([, text]) => !text.includes("\0")))(
    "%s: nor does it come through as an argument",
    async (_, text) => {
      for (const argv of [
        ["evaluate", text],
        [text],
        ["help", text],
        ["sieves", text],
        ["product", "show", text, "--data", folder()],
        ["record", text],
        ["log", "--since", text],
        ["verify", "--data", join(folder(), text)],
        ["restore", text, "--data", folder()],
        ["evaluate", "-", `--${text}`],
      ]) {
        const { code, out, err } = await run(argv);
        expect([argv, code]).not.toEqual([argv, 0]);
        expect(JSON.stringify([argv[0], (out + err).match(OBEYED)])).toBe(JSON.stringify([argv[0], null]));
      }
    },
  );
});

describe.skipIf(!posix)("names of files and folders, which Linux lets be anything", () => {
  const NAME = "a\u001b]0;owned\u0007b\u202e\n\u009b2J.json";

  test("in messages of commands", async () => {
    const place = folder();
    writeFileSync(join(place, NAME), "{");
    for (const argv of [
      ["product", "add", join(place, NAME), "--data", folder()],
      ["evaluate", join(place, NAME)],
      ["product", "import", join(place, NAME), "--data", folder()],
    ]) {
      const { code, err } = await run(argv);
      expect([argv[0], code]).not.toEqual([argv[0], 0]);
      expect(err).toMatch(/^sievewright: [^\n]+\n$/);
      expect(err).not.toMatch(OBEYED);
    }
  });

  test("beside the station's own files: left alone, and the log is proven all the same", async () => {
    const data = await evilStation();
    for (const inside of ["drafts", "log", "library/products"]) writeFileSync(join(data, inside, NAME), "{");
    const { out, err } = await run(["verify", "--data", data]);
    expect(out + err).not.toMatch(OBEYED);
    expect(readFileSync(join(data, "drafts", NAME), "utf8")).toBe("{");
  });

  test("in the refusal of the built program, with a terminal and without", async () => {
    const place = join(folder(), "x\u001b]0;owned\u0007y");
    writeFileSync(place, "no folder");
    const { stderr, status } = builtRun(["verify", "--data", place]);
    expect(status).not.toBe(0);
    expect(stderr).not.toMatch(OBEYED);
    const op = await startOperator({ args: ["--data", place] });
    expect(await op.exit()).not.toBe(0);
    expect(op.raw()).toContain("sievewright: ");
    expect(op.raw()).not.toContain("\u001b]0;");
  });
});

describe("on the screens", () => {
  const rows = Array.from({ length: 12 }, (_, i) => recordedRow(i + 1, `lot${i}${SEQUENCES[i]?.[1]}${ALL_UNSEEN}`));
  const everywhere = [...SEQUENCES, ...UNSEEN].map(([, text]) => text).join(" ");
  const app = anApp({
    station: { ...STATION, plant: everywhere, lines: [everywhere], samplingPoints: [everywhere] },
    recent: rows,
    products: [{ ...FILTER_SAND, name: everywhere }],
    revisions: [{ ...FILTER_SAND, name: everywhere }],
    drafts: [{ ...draft("T-1", 2), lot: everywhere, remark: everywhere }],
    problems: [everywhere],
    readOnly: null,
    message: everywhere,
    operator: everywhere,
  });
  const WAYS = ["", "n", "l", "p", "m", "a", "g", "j", "h", "?", "p\r", "n\r\r\r", "z", "b"];

  test.each([
    [80, 24],
    [60, 16],
    [120, 40],
  ])("at %ix%i nothing in any text is drawn raw, and what is drawn fits", (columns, height) => {
    for (const way of WAYS) {
      const stage = new Stage(app);
      for (const key of way) {
        if (key === "\r") stage.presses("enter");
        else stage.types(key);
      }
      for (const line of frameOf(stage.app, { columns, rows: height }).map(textOf)) {
        expect(JSON.stringify([way, line.match(OBEYED)])).toBe(JSON.stringify([way, null]));
        expect(columnsOf(line)).toBeLessThanOrEqual(columns);
      }
      for (const row of readingOf(stage.app))
        expect(JSON.stringify([way, row.match(OBEYED)])).toBe(JSON.stringify([way, null]));
    }
  });
});

test("there is one door each: commands end in conclude(), frames in frameOf(), and nothing else writes text", () => {
  const src = fileURLToPath(new URL("../../src", import.meta.url));
  const files = readdirSync(src, { recursive: true, encoding: "utf8" }).filter((name) => /\.tsx?$/.test(name));
  const texts = files.map((name) => [name.replaceAll("\\", "/"), readFileSync(join(src, name), "utf8")] as const);
  const having = (what: RegExp) =>
    texts
      .filter(([, text]) => what.test(text))
      .map(([name]) => name)
      .sort();
  // session, painter, reciter and bell write the terminal's own sequences; io is what conclude() writes through
  expect(having(/\b(?:stdout|stderr|output)\.write\(|console\./)).toEqual([
    "commands/io.ts",
    "main.tsx",
    "terminal/askHidden.ts",
    "terminal/bell.ts",
    "terminal/guard.ts",
    "terminal/painter.ts",
    "terminal/reciter.ts",
    "terminal/session.ts",
  ]);
  expect(having(/createElement\((?:Text|"ink-text")/)).toEqual(["screens/Reading.tsx", "screens/Screens.tsx"]);
  expect(having(/JSON\.stringify/).filter((name) => /^(?:commands|report)\//.test(name))).toEqual([]);
});

test("folders of a station may hold a folder of any name", async () => {
  const data = await evilStation();
  mkdirSync(join(data, "drafts", "..."), { recursive: true });
  expect((await run(["verify", "--data", data])).code).toBe(0);
});
