import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { afterEach, expect, onTestFinished, test, vi } from "vitest";
import type { Draft } from "../../src/record/draft.ts";
import type { Product } from "../../src/record/product.ts";
import type { Station } from "../../src/record/station.ts";
import { shiftAt } from "../../src/shift/schedule.ts";
import { indexRowOf } from "../../src/store/indexRowOf.ts";
import { openStore } from "../../src/store/openStore.ts";
import { verifyLog } from "../../src/store/verify.ts";
import { FILTER_SAND, Hands, SETTING } from "../run/hands.ts";
import { STATION } from "../screens/stage.ts";
import { must } from "../store/opened.ts";
import { CHEAP, PINS, ROLE_OF, whoOf } from "../store/peopleAt.ts";
import { type Operator, operatorsLeave, startOperator } from "./operator.ts";
import { opened, stationFolder } from "./stationOf.ts";

vi.setConfig({ testTimeout: 60_000 });
afterEach(operatorsLeave);

/** An Enter on a question that has just come up counts for a bouncing key, so a hand looks first. */
const LOOK_MS = 300;

async function enters(op: Operator, sight: string | RegExp, answer = ""): Promise<void> {
  await op.sees(sight);
  await pause(LOOK_MS);
  await op.types(answer);
  await op.presses("enter");
}

async function withDrafts(folder: string, drafts: readonly Draft[], station: Station): Promise<void> {
  const store = await opened(folder, station);
  for (const draft of drafts) must(await store.saveDraft(draft));
  await store.close();
}

const NIGHT: Station = {
  ...STATION,
  shifts: [
    { name: "day", begins: "06:00", ends: "22:00" },
    { name: "night", begins: "22:00", ends: "06:00" },
  ],
};

/** The built program with a clock that stands at 02:50 in summer time, ten minutes before the hour comes again. */
async function inTheNight(folder: string): Promise<{ op: Operator; minutesOn: (minutes: number) => void }> {
  const aside = mkdtempSync(join(tmpdir(), "sievewright-clock-"));
  onTestFinished(() => rmSync(aside, { recursive: true, force: true }));
  const clock = fileURLToPath(new URL("setClock.mjs", import.meta.url));
  const program = fileURLToPath(new URL("../../dist/sievewright.mjs", import.meta.url));
  const on = join(aside, "minutes");
  const op = await startOperator({
    command: [process.execPath, "--import", clock, program, "--data", folder],
    env: { SET_CLOCK: "2026-10-25T02:50:00+02:00", SET_CLOCK_ON: on },
  });
  return { op, minutesOn: (minutes) => writeFileSync(on, `${minutes}`) };
}

async function signsTheDraft(op: Operator, lot: string): Promise<void> {
  await enters(op, new RegExp(`▸[ A-Z]*resume +TH-0510 +lot ${lot}`));
  await enters(op, "TEST VALID");
  await enters(op, "what becomes of the product?");
  await op.sees("signed by");
  await pause(LOOK_MS);
  if (!op.screen().join("\n").includes("signed by  KO")) await op.types("KO");
  await op.presses("enter");
  await op.sees(/recorded as no\. \d+/);
}

test("a night shift over the autumn change of the clock is one shift, its tests in the order of the work", async () => {
  const folder = await stationFolder([FILTER_SAND], [], NIGHT);
  const { draft } = new Hands().tests().run;
  const of = (testId: string, lot: string) => ({ ...draft, testId, lot, startedAt: "2026-10-25T02:20:00+02:00" });
  await withDrafts(folder, [of("T-1", "4471-A"), of("T-2", "4471-B")], NIGHT);
  const { op, minutesOn } = await inTheNight(folder);
  await op.sees("10-25 02:5");
  await op.presses("up", "up");
  await signsTheDraft(op, "4471-A");
  minutesOn(20); // 03:10 in summer time is 02:10 in winter time
  await op.sees("10-25 02:1", 5_000);
  await op.presses("up", "up");
  await signsTheDraft(op, "4471-B");
  await op.types("h");
  await op.sees("handover · night · 2026-10-24");
  await op.sees("the clock is changed in this shift (UTC+02:00 to UTC+01:00)");
  await op.presses("page down");
  await op.sees(/02:5\d +\d+ +TH-0510 +4471-A[\s\S]*\n +02:1\d +\d+ +TH-0510 +4471-B/);
  await op.presses("ctrl+c");
  expect(await op.exit()).toBe(0);

  const store = await opened(folder, NIGHT);
  const rows = [...(await store.recentRows(9))].sort((a, b) => a.number - b.number);
  expect(rows.map(({ lot, day }) => [lot, day])).toEqual([
    ["4471-A", "2026-10-24"],
    ["4471-B", "2026-10-24"],
  ]);
  expect(new Set(rows.map(({ at }) => shiftAt(at, NIGHT).began))).toEqual(new Set(["2026-10-24T22:00:00+02:00"]));
  await store.close();
  expect(await verifyLog(folder)).toMatchObject({ ok: true });
});

/** One sieve and the pan, so that a whole test is few keys; what the charge of 300 g leaves on the sieve decides. */
const COARSE: Product = {
  ...FILTER_SAND,
  stackUm: [1000],
  method: { retest: { ways: ["second portion", "resample"], atMost: 1 } },
  envelope: [{ apertureUm: 1000, passingPct: { min: 90 } }],
  values: [],
};

/** A station where people sign on, with a failed test that waits for its signature. */
async function failing(): Promise<string> {
  const folder = await stationFolder([COARSE]);
  const hands = new Hands({ ...SETTING, products: [COARSE], programs: [] }, COARSE);
  const { draft } = hands.setsOut("300").weighs([400, 350]).shakes().weighs([480, 570]).run;
  await withDrafts(folder, [{ ...draft, testId: "T-1" }], STATION);
  const now = () => "2026-11-01T07:00:00+01:00";
  const store = must(await openStore(folder, { now, indexRowOf, pinCost: CHEAP }));
  must(await store.operators.setUp({ initials: "SB", name: "S. Baro", pin: PINS.SB }, "audit"));
  must(await store.signOn(whoOf("SB")));
  for (const initials of ["ML", "KO"] as const) {
    const person = { initials, name: `${initials} of the plant`, role: ROLE_OF[initials], pin: PINS[initials] };
    must(await store.operators.change({ event: "added", ...person, reason: "" }));
  }
  await store.close();
  return folder;
}

async function signsOn(op: Operator, who: "ML" | "KO"): Promise<void> {
  await op.sees("sign on");
  await op.types(who);
  await op.presses("enter");
  await op.types(PINS[who]);
  await op.presses("enter");
  await op.sees(`${who} ${ROLE_OF[who]}`);
}

/** A second portion of the failed test, from the page of its lot; it passes, and can't release the lot. */
async function testsAgain(op: Operator): Promise<void> {
  await op.types("s");
  await op.sees(/second portion, repeats no\. \d+/);
  for (const answer of ["", "", "", "", "300"]) await enters(op, "▌", answer);
  for (const grams of ["400", "350"]) await enters(op, "▌", grams);
  await op.sees("shak");
  await op.types("s");
  await enters(op, "▌", "none needed");
  for (const grams of ["420", "630"]) await enters(op, "▌", grams);
  await op.sees("PASS");
  await pause(LOOK_MS);
  await op.presses("enter");
  await op.sees("what becomes of the product?");
  await op.sees("▸ 3  hold");
  await op.types("1");
  await enters(op, "▸ 1  release");
  await op.sees(/this lot is on hold by no\. \d+/);
  await op.types("3");
  await enters(op, "▸ 3  hold");
  await enters(op, "signed by  KO");
  await op.sees("recorded as no.");
}

test("a lot goes from a fail to its hold, a retest, and the reason for which quality closes it", async () => {
  const folder = await failing();
  const op = await startOperator({ args: ["--data", folder] });
  await signsOn(op, "KO");
  await enters(op, /▸[ A-Z]*resume/);
  await enters(op, "FAIL");
  await enters(op, "what becomes of the product?");
  await enters(op, "signed by  KO");
  await op.sees(/lot on hold by no\.\s+\d+/);
  await op.presses("down");
  await op.types("j");
  await op.sees("ON HOLD !");
  await testsAgain(op);
  await op.presses("down");
  await op.types("j");
  await op.sees(/FAIL ✗ +no\. \d+ failed; a later pass/);
  await op.sees(/passing 1 mm +from 90 +73\.3 % ✗ +93\.3 % ✓/);
  await op.types("c");
  await op.sees("to close a hold takes somebody of quality");
  await op.presses("escape");
  await op.types("o");
  await signsOn(op, "ML");
  await op.presses("down");
  await op.types("j");
  await op.sees("ON HOLD !");
  await op.types("c");
  await enters(op, "what becomes of the lot", "rework");
  await enters(op, "why the hold is closed", "screened again on deck B");
  await op.sees(/no hold is open; no\. \d+ was closed .+ by ML: rework/);
  await op.presses("escape");
  await op.types("h");
  await op.sees(/HOLDS OPEN\n +none/);
  await op.presses("page down");
  await op.sees("second portion, repeats no.");
  await op.sees(/HOLDS CLOSED[\s\S]*closed: rework \(screened again on\s+deck B\), ML/);
  await op.presses("ctrl+c");
  expect(await op.exit()).toBe(0);
  expect(await verifyLog(folder)).toMatchObject({ ok: true });
});
