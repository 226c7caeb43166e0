// Files that are not what they should be, and others that work on them, against the built program.
import { spawn } from "node:child_process";
import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { afterEach, describe, expect, onTestFinished, test, vi } from "vitest";
import { builtRun } from "../commands/realProcess.ts";
import { FULL_G } from "../run/hands.ts";
import { recordedEntry } from "../screens/stage.ts";
import { must } from "../store/opened.ts";
import { note } from "../store/records.ts";
import { temporaryFolder } from "../store/temporaryFolder.ts";
import { operatorsLeave, startOperator } from "../terminal/operator.ts";
import { opened, QUICK_SAND, stationFolder } from "../terminal/stationOf.ts";
import {
  fullOnDisk,
  halfWeighed,
  LOT,
  resumed,
  SOUND,
  signs,
  soundness,
  typedG,
  weighed,
  weighsFull,
} from "./inWork.ts";

vi.setConfig({ testTimeout: 90_000 });
afterEach(operatorsLeave);

/** One test on record, another with three of its sieves weighed. */
async function usedStation(full = 3): Promise<string> {
  const folder = await stationFolder([QUICK_SAND], [recordedEntry(1, "4470-A")]);
  const store = await opened(folder);
  must(await store.saveDraft(halfWeighed(full)));
  await store.indexRows("2026-11");
  await store.close();
  return folder;
}

const put = (folder: string, name: string, content: string | Uint8Array): void => {
  mkdirSync(dirname(join(folder, name)), { recursive: true });
  writeFileSync(join(folder, name), content);
};
const daysOf = (folder: string): string[] =>
  readdirSync(join(folder, "log"), { recursive: true, encoding: "utf8" }).filter((name) => /\d\.json$/.test(name));
const dayOf = (folder: string): string => join("log", daysOf(folder).at(-1) ?? "");
const flat = (rows: readonly string[]): string => rows.join(" ").replace(/\s+/g, " ");

describe("a hundred megabytes of [", () => {
  const BRACKETS = Buffer.alloc(100_000_000, "[");
  const MOST_MIB = 700;

  /** Runs a command and measures its time and its peak of memory, without touching the program. */
  async function measured(args: readonly string[]) {
    const peak = join(await temporaryFolder(), "peak");
    const tell = `import fs from "node:fs";process.on("exit",()=>fs.writeFileSync(${JSON.stringify(peak)},String(process.resourceUsage().maxRSS)))`;
    const began = performance.now();
    const ended = builtRun(args, "", { NODE_OPTIONS: `--import data:text/javascript,${encodeURIComponent(tell)}` });
    const seconds = (performance.now() - began) / 1000;
    return { ...ended, seconds, peakMiB: Number(readFileSync(peak, "utf8")) / 1024 };
  }

  const NESTS = /the file nests brackets deeper than any record does/;
  const FILES: readonly (readonly [string, (folder: string) => string, readonly string[], number, RegExp])[] = [
    ["the head", () => "log/head.json", ["verify"], 1, NESTS],
    ["a day", dayOf, ["verify"], 1, NESTS],
    ["the index", () => "index/2026-11.json", ["log"], 0, /4470-A/],
    ["a product", () => "library/products/TH-0510.rev3.json", ["product", "list"], 1, NESTS],
    ["a draft", () => "drafts/T-3.json", ["reindex"], 0, /entries/],
    ["the station", () => "station.json", ["verify"], 65, NESTS],
    ["the lock", () => "station.lock", ["reindex"], 74, /another Sievewright is just opening this station/],
  ];

  test.each(FILES)("instead of %s costs neither much time nor much memory", async (_, fileOf, command, code, said) => {
    const folder = await usedStation();
    put(folder, fileOf(folder), BRACKETS);
    const { status, stdout, stderr, seconds, peakMiB } = await measured([...command, "--data", folder]);
    expect(stdout + stderr).toMatch(said);
    expect(status).toBe(code);
    expect(seconds).toBeLessThan(15);
    expect(peakMiB).toBeLessThan(MOST_MIB);
    expect(peakMiB).toBeGreaterThan(20);
  });
});

describe("a file replaced while the program is closed", () => {
  const WITH: readonly (readonly [string, string, RegExp])[] = [
    ["garbage", "\u0000\u0001garbage", /the file is not JSON/],
    ["an empty file", "", /the file is empty/],
  ];

  test.each(WITH)(
    "by %s is set aside and told with what to do, and the screens go on with the rest",
    async (_, text, why) => {
      const folder = await usedStation();
      put(folder, "drafts/T-3.json", text);
      put(folder, "log/head.json", text);
      const op = await startOperator({ args: ["--data", folder], cols: 120, rows: 40 });
      await op.sees(/resume +TH-0510/);
      const told = flat(op.screen());
      expect(told).toMatch(why);
      expect(told).toMatch(
        /drafts\/T-3\.json can't be read: .+It was kept as drafts\/T-3\.json\.unreadable; bring it to whoever/,
      );
      expect(readFileSync(join(folder, "drafts/T-3.json.unreadable"), "utf8")).toBe(text);
      expect(readFileSync(join(folder, "log/head.json.unreadable"), "utf8")).toBe(text);
      await op.presses("enter");
      await op.sees("weigh full 3/6");
      await weighsFull(op, 3, 4);
      expect(fullOnDisk(folder)).toEqual(weighed(4));
      expect(builtRun(["verify", "--data", folder])).toMatchObject({ status: 0, stderr: "" });
    },
  );

  test("by one of a newer version opens for reading, says so, and is not touched", async () => {
    const text = '{"schema":"sievewright.draft/9"}';
    const folder = await usedStation();
    put(folder, "drafts/T-3.json", text);
    const op = await startOperator({ args: ["--data", folder], cols: 120, rows: 40 });
    await op.sees("read only:");
    const newer =
      "drafts/T-3.json was written by a newer Sievewright (sievewright.draft/9; this one knows sievewright.draft/1)";
    expect(flat(op.screen())).toContain(`read only: ${newer}. Nothing is changed by this older one: update it`);
    const { status, stderr } = builtRun(["reindex", "--data", folder]);
    expect(status).toBe(74);
    expect(stderr).toContain(newer);
    expect(readFileSync(join(folder, "drafts/T-3.json"), "utf8")).toBe(text);
  });
});

describe("a file replaced while the program is open", () => {
  test("by garbage, nothing or a newer one is made good by the next save: what was accepted is in memory", async () => {
    const folder = await usedStation(4);
    const op = await resumed(folder);
    const [draft = ""] = readdirSync(join(folder, "drafts"));
    put(folder, `drafts/${draft}`, "\u0000garbage");
    put(folder, "log/head.json", "");
    put(folder, "index/2026-11.json", '{"schema":"sievewright.index/9"}');
    await weighsFull(op, 4, 5);
    expect(fullOnDisk(folder)).toEqual(weighed(5));
    await op.scans(typedG(FULL_G[5] ?? 0));
    await signs(op);
    await op.presses("enter");
    await op.sees(/recorded as no[.] \d+/);
    await op.presses("ctrl+c");
    expect(await op.exit()).toBe(0);
    expect(builtRun(["verify", "--data", folder])).toMatchObject({ status: 0, stderr: "" });
    expect(builtRun(["log", "--data", folder]).stdout).toMatch(new RegExp(`4470-A[\\s\\S]*${LOT}`));
  });

  test("the day that is being written is made good as well; a day gone by is told by verify and kept as it lies", async () => {
    const folder = await usedStation();
    const store = await opened(folder);
    const written = must(await store.record(note("one", "2026-11-24T10:00:00+01:00"))).day;
    await store.care.register(); // what is drawn from the whole log has been drawn: no day gone by is read any more
    put(folder, `log/2026/11/${written}.json`, "garbage");
    must(await store.record(note("two", "2026-11-24T11:00:00+01:00")));
    put(folder, "log/2026/11/2026-11-01.json", "garbage");
    await store.close();
    const { status, stdout } = builtRun(["verify", "--data", folder]);
    expect(status).toBe(1);
    expect(stdout).toMatch(/2026-11-01\.json.+not JSON/);
    expect(stdout).not.toContain(`${written}.json`);
    expect(readFileSync(join(folder, "log/2026/11/2026-11-01.json"), "utf8")).toBe("garbage");
  });
});

describe("an index", () => {
  test("that is missing is drawn again; one that lies is put right by reindex, and no test is lost or made by it", async () => {
    const folder = await usedStation();
    const index = join(folder, "index/2026-11.json");
    const whole = readFileSync(index, "utf8");
    const listed = () => builtRun(["log", "--data", folder]).stdout;
    const before = listed();
    expect(before).toContain("4470-A");

    rmSync(index);
    expect(listed()).toBe(before);

    const ahead = new Date(Date.now() + 3_600_000);
    for (const lie of [whole.replaceAll("4470-A", "9999-Z"), whole.replace(/"rows": \[[\s\S]*\]/, '"rows": []')]) {
      put(folder, "index/2026-11.json", lie);
      utimesSync(index, ahead, ahead); // so that it does not look older than the log
      expect(builtRun(["verify", "--data", folder])).toMatchObject({ status: 0 });
      expect(builtRun(["reindex", "--data", folder])).toMatchObject({ status: 0, stderr: "" });
      expect(listed()).toBe(before);
    }
  });
});

describe("two programs on one station", () => {
  const add = (folder: string, revision: number) => {
    const file = join(folder, "to load.json");
    writeFileSync(file, JSON.stringify({ ...QUICK_SAND, revision }));
    return builtRun(["product", "add", file, "--by", "KO", "--data", folder]);
  };

  test("the second is told who has it and changes nothing, reads meanwhile, and a copied folder is nobody's", async () => {
    const folder = await usedStation();
    const op = await resumed(folder);
    expect(add(folder, 4)).toMatchObject({ status: 74, stdout: "" });
    expect(add(folder, 4).stderr).toMatch(/another Sievewright \(process \d+, since .+\) has this station open/);
    expect(builtRun(["verify", "--data", folder])).toMatchObject({ status: 0 });
    expect(builtRun(["product", "list", "--data", folder]).stdout).toContain("rev 3");

    const copy = join(await temporaryFolder(), "copy");
    cpSync(folder, copy, { recursive: true });
    expect(add(copy, 4)).toMatchObject({ status: 0, stderr: "" });
    await weighsFull(op, 3, 4);
    expect(fullOnDisk(folder)).toEqual(weighed(4));
    expect(fullOnDisk(copy)).toEqual(weighed(3));
    expect(await soundness(folder)).toEqual(SOUND);
  });

  test("a lock left by a kill heals at once; under a number that another process has got since, in half a minute", async () => {
    const folder = await usedStation();
    const op = await resumed(folder);
    op.kill("SIGKILL");
    await op.exit();
    expect(readdirSync(folder)).toContain("station.lock");
    const left = JSON.parse(readFileSync(join(folder, "station.lock"), "utf8"));
    expect(add(folder, 4)).toMatchObject({ status: 0, stderr: "" });

    const stranger = spawn(process.execPath, ["-e", "setInterval(() => {}, 1000)"], { stdio: "ignore" });
    onTestFinished(() => void stranger.kill("SIGKILL"));
    const lock = join(folder, "station.lock");
    writeFileSync(lock, JSON.stringify({ ...left, pid: stranger.pid }));
    expect(add(folder, 5).stderr).toContain(`another Sievewright (process ${stranger.pid}, since`);
    const long = new Date(Date.now() - 31_000);
    utimesSync(lock, long, long);
    expect(add(folder, 5)).toMatchObject({ status: 0, stderr: "" });
    expect(await soundness(folder)).toEqual(SOUND);
  });
});
