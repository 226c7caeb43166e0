import { describe, expect, test, vi } from "vitest";
import { correctionOf, refTo } from "../../src/assess/correctionOf.ts";
import type { Change } from "../../src/record/amendment.ts";
import { isAmendment } from "../../src/record/amendmentRefusal.ts";
import type { Care } from "../../src/record/care.ts";
import { LogEntrySchema, type NewEntry, type TestEntry } from "../../src/record/logEntry.ts";
import { actOf, actRefusal, mayDo, PERMISSIONS } from "../../src/record/permissions.ts";
import type { TestRecord } from "../../src/record/test.ts";
import type { PermittedEntry } from "../../src/store/operatorsPermit.ts";
import type { Store } from "../../src/store/store.ts";
import { entryOf } from "../record/everyKind.ts";
import { TEN_MINUTES } from "../run/hands.ts";
import { must, mustNot, opened } from "./opened.ts";
import { type Known, openAt, ROLE_OF, staffedAt, whoOf } from "./peopleAt.ts";
import { note, product } from "./records.ts";
import { shelved } from "./shelved.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

vi.setConfig({ testTimeout: 60_000 });

const KINDS = LogEntrySchema.options.map((option) => option.shape.kind.value);
const OF_THE_STORE = ["sign-on", "operator", "station declared"];
const PEOPLE = Object.keys(ROLE_OF) as Known[];

let tests = 0;
/** A test on record that the next entry is about; everybody may record one. */
async function testBy(store: Store, by: string, change: Partial<TestRecord> = {}): Promise<TestEntry> {
  tests += 1;
  const entry = entryOf("test", by, `t-${tests}`);
  const asked = entry.kind === "test" ? { ...entry, test: { ...entry.test, ...change } } : entry;
  const recorded = must(await store.record(asked));
  if (recorded.kind !== "test") throw new Error("a test was asked for");
  return recorded;
}

function corrected(by: string, test: TestEntry, change: Change): NewEntry {
  const correcting = must(correctionOf({ entry: test, later: [] }, [change], "reason: mistyped", "0.1.0"));
  return { ...correcting, at: test.at, by };
}

const INVALID = { program: "test", test: "invalid", product: "not judged", lossPct: 0.1 } as const;

const SERIAL = "S-0710-2";
/** Care of other kinds than the example of `entryOf`. */
const CARE: readonly Care[] = [
  { did: "repair", serials: [SERIAL], what: "solder at the rim" },
  { did: "return to service", serials: [SERIAL], reason: "inspected again" },
];

/** An entry of this kind that fits what is on record, so that nothing but the role can refuse it. */
async function fitting(store: Store, kind: NewEntry["kind"], by: string): Promise<NewEntry> {
  const entry = entryOf(kind, by, `${kind}-${by}`.replace(" ", "-"));
  if (entry.kind === "hold closed") return closingOf(store, entry);
  if (entry.kind === "hold opened") return { ...entry, lot: "H-2" }; // else no test of that lot could be released
  if (entry.kind === "care")
    await shelved(store.folder, { schema: "sievewright.sieve/1", serial: SERIAL, apertureUm: 710 });
  if (!isAmendment(entry)) return entry;
  const test = await testBy(store, by, entry.kind === "waived" ? { signed: INVALID, disposition: "resample" } : {});
  if (entry.kind === "correction") return corrected(by, test, { field: "lot", from: "4471-B", to: "4471-C" });
  const about = { ...entry, of: refTo(test) };
  if (entry.kind === "reinstated") await store.record({ ...about, kind: "voided" });
  return about;
}

/** Of a hold on a lot of its own. */
async function closingOf(store: Store, entry: Extract<NewEntry, { kind: "hold closed" }>): Promise<NewEntry> {
  const hold = { ...entryOf("hold opened", entry.by), lot: "H-1" } as NewEntry;
  const { day, number } = must(await store.record(hold));
  return { ...entry, product: "TH-0510", lot: "H-1", hold: { day, number } };
}

function triedBy(store: Store, tried: NewEntry["kind"] | "closing" | Care, by: string): Promise<NewEntry> {
  if (tried === "closing") return closing(store, by);
  if (typeof tried === "string") return fitting(store, tried, by);
  return fitting(store, "care", by).then((entry) => ({ ...entry, care: tried }) as NewEntry);
}

async function closing(store: Store, by: string): Promise<NewEntry> {
  const held = await testBy(store, by, { disposition: "hold" });
  return corrected(by, held, { field: "disposition", from: "hold", to: "release" });
}

describe("every role at every act, through the store", () => {
  test.each(PEOPLE)("%s does what the table allows and is told why not elsewhere", async (initials) => {
    const role = ROLE_OF[initials];
    const { store } = await staffedAt(await temporaryFolder());
    must(await store.signOn(whoOf(initials)));
    const acts = new Set<string>();
    const tries = [...KINDS.filter((kind) => !OF_THE_STORE.includes(kind)), "closing" as const, ...CARE];
    for (const kind of tries) {
      const entry = await triedBy(store, kind, initials);
      const act = actOf(entry);
      const recorded = await store.record(entry);
      if (act !== null) acts.add(act);
      if (act === null || mayDo(role, act))
        expect(must(recorded)).toMatchObject({ kind: entry.kind, by: initials, signedOn: true });
      else expect(recorded).toEqual({ ok: false, reason: actRefusal(role, act) });
    }
    const others = PERMISSIONS.map(({ act }) => act).filter((act) => !acts.has(act));
    expect(others).toEqual(["manage operators", "change the station"]);
  });

  test.each(PEOPLE)("%s manages operators and the station only as the table allows", async (initials) => {
    const { store } = await staffedAt(await temporaryFolder());
    must(await store.signOn(whoOf(initials)));
    const added = {
      event: "added",
      initials: "AN",
      name: "A. New",
      role: "quality",
      pin: "556102",
      reason: "",
    } as const;
    const manages = mayDo(ROLE_OF[initials], "manage operators");
    expect((await store.operators.change(added)).ok).toBe(manages);
    expect((await store.operators.setIdleMinutes(5)).ok).toBe(manages);
    expect((await store.operators.declare("none", whoOf(initials), "trial over")).ok).toBe(manages);
    expect(store.operators.rule).toBe(manages ? "none" : "required");
    expect(store.operators.people().length).toBe(manages ? 4 : 3);
  });

  test("loading a product into the library is publishing it", async () => {
    const { store } = await staffedAt(await temporaryFolder());
    const loading = { fromPath: "x", bytesSha256: "0".repeat(64), at: "2026-11-24T09:00:00+01:00" };
    must(await store.signOn(whoOf("KO")));
    expect(mustNot(await store.addProduct(product, { ...loading, by: "KO" }))).toContain("somebody of quality");
    expect((await store.products()).codes).toEqual([]);
    must(await store.signOn(whoOf("ML")));
    expect(must(await store.addProduct(product, { ...loading, by: "ML" }))).toBe("added");
  });

  test.each(PEOPLE)("%s loads programs and stacks only as the table allows", async (initials) => {
    const { store } = await staffedAt(await temporaryFolder());
    const loading = { fromPath: "x", bytesSha256: "0".repeat(64), by: initials, at: "2026-11-24T09:00:00+01:00" };
    expect(mustNot(await store.addProgram(TEN_MINUTES, loading))).toContain("nobody is signed on");
    must(await store.signOn(whoOf(initials)));
    const may = mayDo(ROLE_OF[initials], "load a program or stack");
    expect((await store.addProgram(TEN_MINUTES, loading)).ok).toBe(may);
    expect((await store.programs()).length).toBe(may ? 1 : 0);
  });
});

describe("where sign-on is required", () => {
  test("nobody who is not signed on records anything", async () => {
    const { store } = await staffedAt(await temporaryFolder());
    const before = (await store.entriesOfDay("2026-11-24")).length;
    expect(mustNot(await store.record(note("hello")))).toBe(
      "nobody is signed on: to write a note, sign on with initials and PIN",
    );
    expect(mustNot(await store.recordAll([note("one"), note("two")]))).toContain("nobody is signed on");
    must(await store.signOn(whoOf("KO")));
    must(await store.signOff("off"));
    expect(mustNot(await store.record(note("late")))).toContain("nobody is signed on");
    const kinds = (await store.entriesOfDay("2026-11-24")).slice(before).map(({ kind }) => kind);
    expect(kinds).toEqual(["sign-on", "sign-on"]);
  });

  test("nobody puts another's name to anything, not even inside a test or a check", async () => {
    const { store } = await staffedAt(await temporaryFolder());
    must(await store.signOn(whoOf("ML")));
    const why = "ML is signed on: KO must sign on to put a name to this";
    expect(mustNot(await store.record(note("by KO")))).toBe(why);
    const test = entryOf("test", "ML", "t-9");
    const inside = test.kind === "test" ? { ...test, test: { ...test.test, by: "KO" } } : test;
    expect(mustNot(await store.record(inside))).toBe(why);
    const check = entryOf("balance check", "ML");
    const other = check.kind === "balance check" ? { ...check, check: { ...check.check, by: "KO" } } : check;
    expect(mustNot(await store.record(other))).toBe(why);
  });

  test("the program notes what it finds without anybody, and nothing says that somebody signed for it", async () => {
    const { store } = await staffedAt(await temporaryFolder());
    expect(must(await store.record(entryOf("finding", "SB")))).not.toHaveProperty("signedOn");
  });

  test("many entries are refused at the first that is not allowed, and those before it stay", async () => {
    const { store } = await staffedAt(await temporaryFolder());
    must(await store.signOn(whoOf("KO")));
    const next = { ...note("next day"), at: "2026-11-25T09:00:00+01:00" };
    expect(mustNot(await store.recordAll([note("today"), next, entryOf("waived")]))).toContain("somebody of quality");
    const notes = (await store.entriesOfDay("2026-11-24")).filter(({ kind }) => kind === "note");
    expect(notes).toMatchObject([{ text: "today", signedOn: true }]);
  });
});

describe("who signed is said by the store alone", () => {
  const claiming: PermittedEntry = { ...note("trust me"), signedOn: true };

  test("where nobody signs on a claim is dropped", async () => {
    const store = await opened(await temporaryFolder());
    expect(must(await store.record(claiming))).not.toHaveProperty("signedOn");
    expect(must(await store.recordAll([claiming]))).toBe(1);
    for (const entry of await store.entriesOfDay("2026-11-24")) expect(entry).not.toHaveProperty("signedOn");
  });

  test.each(OF_THE_STORE)("nobody else tells of %s, with sign-on or without", async (kind) => {
    const entry = entryOf(kind as NewEntry["kind"], "SB");
    const why = `an entry of kind "${kind}" is made by the store alone`;
    const store = await openAt(await temporaryFolder());
    expect(mustNot(await store.record(entry))).toBe(why);
    const staffed = (await staffedAt(await temporaryFolder())).store;
    must(await staffed.signOn(whoOf("SB")));
    expect(mustNot(await staffed.record(entry))).toBe(why);
  });
});

test("a station without sign-on takes any initials, for every act", async () => {
  const store = await opened(await temporaryFolder());
  for (const kind of KINDS.filter((one) => !OF_THE_STORE.includes(one)))
    expect(must(await store.record(await fitting(store, kind, "XY")))).toMatchObject({ kind, by: "XY" });
});
