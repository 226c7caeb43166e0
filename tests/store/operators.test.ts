import { readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test, vi } from "vitest";
import type { LogEntry } from "../../src/record/logEntry.ts";
import { OperatorsSchema } from "../../src/record/operators.ts";
import { listSealOf } from "../../src/record/operatorsList.ts";
import { signOnGaps } from "../../src/record/signOnGaps.ts";
import { openStore } from "../../src/store/openStore.ts";
import type { Store } from "../../src/store/store.ts";
import { fault, ModelDisk } from "../faults/modelDisk.ts";
import { must, mustNot, opened } from "./opened.ts";
import { CHEAP, openAt, PINS, setUpAt, staffedAt, whoOf } from "./peopleAt.ts";
import { indexRowOf, note, now, station } from "./records.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

vi.setConfig({ testTimeout: 60_000 });

const DAY = "2026-11-24";
const told = async (store: Store) =>
  (await store.entriesOfDay(DAY)).map((entry) =>
    entry.kind === "sign-on"
      ? `${entry.who} ${entry.event}`
      : entry.kind === "operator"
        ? `${entry.who} ${entry.event}`
        : entry.kind === "station declared"
          ? `declared ${entry.signOn}`
          : entry.kind,
  );
const listAt = (folder: string) => readFileSync(join(folder, "operators.json"), "utf8");

/** A clock that the test moves. */
function aClock(from = Date.UTC(2026, 10, 24, 8)) {
  let ms = from;
  return {
    now: () => `${new Date(ms).toISOString().slice(0, 19)}+00:00`,
    goes: (seconds: number) => {
      ms += seconds * 1000;
    },
  };
}

async function guesses(store: Store, initials: string, times: number): Promise<string[]> {
  const answers: string[] = [];
  for (let i = 0; i < times; i += 1) answers.push(mustNot(await store.signOn({ initials, pin: `55${i}602` })));
  return answers;
}

describe("setting sign-on up", () => {
  test("makes the first administrator, gives a recovery code once, and tells the log", async () => {
    const folder = await temporaryFolder();
    const { store, code } = await setUpAt(folder);
    expect(code).toMatch(/^([2-9A-HJKMNP-TV-Z]{4}-){4}[2-9A-HJKMNP-TV-Z]{4}$/);
    expect(store.operators).toMatchObject({ rule: "required", known: true, idleMinutes: 10, trouble: null });
    expect(store.operators.people()).toEqual([
      { initials: "SB", name: "S. Baro", role: "administrator", state: "active" },
    ]);
    expect(await told(store)).toEqual(["SB added", "declared required"]);
  });

  test("keeps neither PIN nor code, in no file that anybody else may read", async () => {
    const folder = await temporaryFolder();
    const { code } = await setUpAt(folder);
    const text = listAt(folder);
    expect(OperatorsSchema.safeParse(JSON.parse(text)).success).toBe(true);
    for (const secret of [PINS.SB, code, code.replaceAll("-", "")]) expect(text).not.toContain(secret);
    if (process.platform !== "win32") expect(statSync(join(folder, "operators.json")).mode & 0o777).toBe(0o600);
  });

  test("is done once", async () => {
    const { store } = await setUpAt(await temporaryFolder());
    const again = store.operators.setUp({ initials: "XX", name: "X", pin: "830517" }, "");
    expect(mustNot(await again)).toBe("sign-on has been set up at this station already");
  });

  test("refuses a PIN that anybody would try, and leaves no trace of the attempt", async () => {
    const store = await openAt(await temporaryFolder());
    expect(mustNot(await store.operators.setUp({ initials: "SB", name: "S", pin: "1234" }, ""))).toContain(
      "first that",
    );
    expect(mustNot(await store.operators.setUp({ initials: "47", name: "S", pin: "830517" }, ""))).toContain(
      "initials",
    );
    expect(store.operators).toMatchObject({ rule: "none", known: false });
    expect(await store.entriesOfDay(DAY)).toEqual([]);
  });

  test("gives two people of one PIN different salts and hashes", async () => {
    const folder = await temporaryFolder();
    const { store } = await setUpAt(folder);
    must(await store.signOn(whoOf("SB")));
    const twin = {
      event: "added",
      initials: "TW",
      name: "T. Win",
      role: "operator",
      pin: PINS.SB,
      reason: "",
    } as const;
    must(await store.operators.change(twin));
    const [one, other] = OperatorsSchema.parse(JSON.parse(listAt(folder))).people;
    expect(one?.pin.salt).not.toBe(other?.pin.salt);
    expect(one?.pin.hash).not.toBe(other?.pin.hash);
  });
});

test("each try at a PIN costs its guesser 32 MiB and a tenth of a second, unless a test says otherwise", async () => {
  const folder = await temporaryFolder();
  const store = await opened(folder);
  must(await store.operators.setUp({ initials: "SB", name: "S. Baro", pin: PINS.SB }, ""));
  const { people, recovery } = OperatorsSchema.parse(JSON.parse(listAt(folder)));
  for (const verifier of [recovery, ...people.map(({ pin }) => pin)])
    expect(verifier).toMatchObject({ method: "scrypt", n: 32_768, r: 8, p: 1 });
});

describe("signing on", () => {
  test("takes initials in any case, says who came, and who went when another takes over", async () => {
    const { store } = await staffedAt(await temporaryFolder());
    const before = (await told(store)).length;
    const session = { initials: "KO", name: "KO of the plant", role: "operator" };
    expect(must(await store.signOn({ initials: " ko ", pin: PINS.KO }))).toEqual(session);
    expect(store.session).toEqual(session);
    must(await store.signOn(whoOf("ML")));
    must(await store.signOff("idle"));
    expect(store.session).toBeNull();
    expect((await told(store)).slice(before)).toEqual(["KO on", "KO off", "ML on", "ML idle"]);
    const entries = (await store.entriesOfDay(DAY)).slice(before);
    expect(entries.every(({ signedOn }) => signedOn === true)).toBe(true);
  });

  test("a wrong PIN leaves whoever was signed on where they were", async () => {
    const { store } = await staffedAt(await temporaryFolder());
    must(await store.signOn(whoOf("ML")));
    mustNot(await store.signOn({ initials: "KO", pin: "000000" }));
    expect(store.session?.initials).toBe("ML");
  });

  test("does not outlive the program, which says that they went", async () => {
    const folder = await temporaryFolder();
    const { store } = await staffedAt(folder);
    must(await store.signOn(whoOf("KO")));
    await store.close();
    const again = await openAt(folder);
    expect(again.session).toBeNull();
    expect((await told(again)).at(-1)).toBe("KO off");
    expect(mustNot(await again.record(note("hello")))).toContain("nobody is signed on");
  });

  test("tells nothing of whether anybody has the initials, neither at once nor after many tries", async () => {
    const { store } = await staffedAt(await temporaryFolder());
    must(await store.signOn(whoOf("SB")));
    must(await store.operators.change({ event: "retired", initials: "ML", reason: "moved" }));
    must(await store.signOff("off"));
    const known = await guesses(store, "KO", 4);
    expect(await guesses(store, "XX", 4)).toEqual(known);
    expect(await guesses(store, "ML", 4)).toEqual(known);
    expect(known).toEqual([
      "initials and PIN don't match",
      "initials and PIN don't match",
      "initials and PIN don't match; the next try counts in 30 s",
      "too many wrong PINs: try again in 30 s",
    ]);
  });

  test("a PIN typed where initials belong is kept nowhere", async () => {
    const folder = await temporaryFolder();
    const { store } = await staffedAt(folder);
    expect(mustNot(await store.signOn({ initials: "190734", pin: "" }))).toContain("initials begin with a letter");
    expect(listAt(folder)).not.toContain("190734");
    expect(JSON.stringify(await store.entriesOfDay(DAY))).not.toContain("190734");
  });

  test("is refused where a station runs without it", async () => {
    const store = await opened(await temporaryFolder());
    expect(mustNot(await store.signOn(whoOf("KO")))).toBe("this station runs without sign-on");
    must(await store.signOff("off"));
  });
});

describe("keeping guessers out", () => {
  test("after three wrong PINs even the right one waits 30 s, then a minute, and so on; then it counts anew", async () => {
    const clock = aClock();
    const { store } = await staffedAt(await temporaryFolder(), clock.now);
    await guesses(store, "KO", 3);
    clock.goes(29);
    expect(mustNot(await store.signOn(whoOf("KO")))).toBe("too many wrong PINs: try again in 1 s");
    clock.goes(1);
    expect(await guesses(store, "KO", 1)).toEqual(["initials and PIN don't match; the next try counts in 60 s"]);
    clock.goes(60);
    must(await store.signOn(whoOf("KO")));
    expect(await guesses(store, "KO", 2)).toEqual(Array(2).fill("initials and PIN don't match"));
  });

  test("holds over restarts", async () => {
    const clock = aClock();
    const folder = await temporaryFolder();
    const { store } = await staffedAt(folder, clock.now);
    await guesses(store, "KO", 2);
    await store.close();
    const second = await openAt(folder, clock.now);
    expect(await guesses(second, "KO", 1)).toEqual(["initials and PIN don't match; the next try counts in 30 s"]);
    await second.close();
    const third = await openAt(folder, clock.now);
    expect(mustNot(await third.signOn(whoOf("KO")))).toBe("too many wrong PINs: try again in 30 s");
  });

  test("is not shortened by setting the clock back, nor made longer than it was", async () => {
    const clock = aClock();
    const { store } = await staffedAt(await temporaryFolder(), clock.now);
    await guesses(store, "KO", 3);
    clock.goes(-86_400);
    expect(mustNot(await store.signOn(whoOf("KO")))).toBe("too many wrong PINs: try again in 30 s");
    clock.goes(30);
    must(await store.signOn(whoOf("KO")));
  });

  test("keeps nobody else out, and tells the log once for each wait", async () => {
    const { store } = await staffedAt(await temporaryFolder());
    const before = (await told(store)).length;
    await guesses(store, "KO", 6);
    must(await store.signOn(whoOf("ML")));
    expect((await told(store)).slice(before)).toEqual(["KO kept out", "ML on"]);
    const [kept] = (await store.entriesOfDay(DAY)).slice(before);
    expect(kept).not.toHaveProperty("signedOn");
  });

  test("a guess at somebody who is signed on is not put down to them", async () => {
    const { store } = await staffedAt(await temporaryFolder());
    must(await store.signOn(whoOf("KO")));
    await guesses(store, "KO", 3);
    const kept = (await store.entriesOfDay(DAY)).at(-1);
    expect(kept).toMatchObject({ kind: "sign-on", event: "kept out", who: "KO" });
    expect(kept).not.toHaveProperty("signedOn");
  });
});

describe("changing who may do what", () => {
  test("is told to the log with who did it, and outlives a restart", async () => {
    const folder = await temporaryFolder();
    const { store } = await staffedAt(folder);
    must(await store.signOn(whoOf("SB")));
    const who = { initials: "KO", reason: "passed the course" };
    must(await store.operators.change({ event: "role changed", role: "quality", ...who }));
    must(await store.operators.change({ event: "PIN set", pin: "556102", ...who }));
    must(await store.operators.change({ event: "retired", initials: "ML", reason: "left" }));
    const entries = (await store.entriesOfDay(DAY)).slice(-3);
    expect(entries).toMatchObject([
      { by: "SB", who: "KO", event: "role changed", role: "quality", reason: "passed the course", signedOn: true },
      { by: "SB", who: "KO", event: "PIN set", signedOn: true },
      { by: "SB", who: "ML", event: "retired", signedOn: true },
    ]);
    expect(JSON.stringify(entries)).not.toContain("556102");
    await store.close();
    const again = await openAt(folder);
    mustNot(await again.signOn(whoOf("KO")));
    mustNot(await again.signOn(whoOf("ML")));
    expect(must(await again.signOn({ initials: "KO", pin: "556102" })).role).toBe("quality");
  });

  test("everybody sets their own PIN, and nobody but an administrator another's", async () => {
    const { store } = await staffedAt(await temporaryFolder());
    must(await store.signOn(whoOf("KO")));
    must(await store.operators.change({ event: "PIN set", initials: "KO", pin: "556102", reason: "" }));
    const other = { event: "PIN set", initials: "ML", pin: "556102", reason: "" } as const;
    expect(mustNot(await store.operators.change(other))).toContain("takes an administrator");
    must(await store.signOn(whoOf("ML")));
    must(await store.signOn({ initials: "KO", pin: "556102" }));
  });

  test("a role that is taken from whoever is signed on is gone at once", async () => {
    const { store } = await staffedAt(await temporaryFolder());
    must(await store.signOn(whoOf("SB")));
    must(await store.operators.change({ event: "role changed", initials: "ML", role: "administrator", reason: "" }));
    must(await store.operators.change({ event: "role changed", initials: "SB", role: "operator", reason: "" }));
    expect(store.session?.role).toBe("operator");
    expect(mustNot(await store.operators.change({ event: "retired", initials: "KO", reason: "" }))).toContain(
      "signed on as operator",
    );
  });

  test("the time without a key is an administrator's to set, within bounds, and told", async () => {
    const { store } = await staffedAt(await temporaryFolder());
    must(await store.signOn(whoOf("SB")));
    expect(mustNot(await store.operators.setIdleMinutes(0))).toBe("from 1 to 480 minutes");
    must(await store.operators.setIdleMinutes(25));
    expect(store.operators.idleMinutes).toBe(25);
    expect((await told(store)).at(-1)).toBe("declared required");
  });
});

describe("turning sign-on off and on", () => {
  test("takes an administrator's PIN and shows in the log; off, any initials do, unsigned", async () => {
    const folder = await temporaryFolder();
    const { store } = await staffedAt(folder);
    mustNot(await store.operators.declare("none", { initials: "SB", pin: "000000" }, ""));
    expect(mustNot(await store.operators.declare("none", whoOf("ML"), ""))).toContain("takes an administrator");
    must(await store.operators.declare("none", whoOf("SB"), "trial over"));
    expect(must(await store.record({ ...note("x"), by: "ZZ" }))).not.toHaveProperty("signedOn");
    await store.close();
    const again = await openAt(folder);
    expect(again.operators).toMatchObject({ rule: "none", known: true, trouble: null });
    must(await again.operators.declare("required", whoOf("SB"), "audit"));
    expect(mustNot(await again.record(note("y")))).toContain("nobody is signed on");
    expect(signOnGaps(await again.entriesOfDay(DAY)).gaps).toEqual([]);
    expect((await told(again)).slice(-3)).toEqual(["declared none", "note", "declared required"]);
  });
});

describe("a list that is gone or changed by hand", () => {
  const broken = async (change: (path: string) => void) => {
    const folder = await temporaryFolder();
    const { store, code } = await staffedAt(folder);
    must(await store.signOn(whoOf("KO")));
    must(await store.record(note("before")));
    await store.close();
    const kept = listAt(folder);
    change(join(folder, "operators.json"));
    return { folder, kept, code, store: await openAt(folder) };
  };
  const rewrite = (change: object) => (path: string) =>
    writeFileSync(path, JSON.stringify({ ...JSON.parse(readFileSync(path, "utf8")), ...change }));

  test.each<[string, (path: string) => void, string]>([
    ["deleted", (path) => rmSync(path), "operators.json is gone"],
    ["garbage", (path) => writeFileSync(path, "{"), "operators.json is gone"],
    ["empty", (path) => writeFileSync(path, ""), "operators.json is gone"],
    ["switched off by hand", rewrite({ signOn: "none" }), "operators.json says that nobody signs on"],
  ])("%s: nothing is recorded, the way out is named, and the drafts stay usable", async (_how, change, why) => {
    const { store } = await broken(change);
    expect(store.operators.trouble).toContain(why);
    const reason = mustNot(await store.record(note("after")));
    expect(reason).toContain(why);
    expect(reason).toContain("sievewright operator recover --help");
    expect(store.problems.join()).toContain(why);
    expect(mustNot(await store.signOn(whoOf("KO")))).toContain(why);
    expect(mustNot(await store.operators.setUp({ initials: "XX", name: "X", pin: "830517" }, ""))).not.toBe("");
  });

  test("garbage is kept beside, and a list put back from a backup is in force again", async () => {
    const { folder, kept, store } = await broken((path) => writeFileSync(path, "{"));
    await store.close();
    expect(store.problems.join()).toMatch(/operators\.json can't be read.*kept as operators\.json.*unreadable/);
    writeFileSync(join(folder, "operators.json"), kept);
    const again = await openAt(folder);
    expect(again.operators.trouble).toBeNull();
    must(await again.signOn(whoOf("KO")));
    must(await again.record(note("after")));
  });

  type Listed = { people: { initials: string; role: string; pin: object }[]; recovery: object };
  const edited = (edit: (list: Listed) => unknown) => (path: string) => {
    const list = JSON.parse(readFileSync(path, "utf8"));
    edit(list);
    writeFileSync(path, JSON.stringify(list));
  };
  const personIn = (list: Listed, initials: string) => {
    const person = list.people.find((one) => one.initials === initials);
    if (person === undefined) throw new Error(`${initials} is not in the list`);
    return person;
  };

  test.each<[string, (list: Listed) => unknown]>([
    ["a swapped role", (list) => Object.assign(personIn(list, "KO"), { role: "quality" })],
    [
      "one's own PIN in a colleague's entry",
      (list) => Object.assign(personIn(list, "ML"), { pin: personIn(list, "KO").pin }),
    ],
    ["a code of one's own", (list) => Object.assign(list, { recovery: personIn(list, "KO").pin })],
    ["somebody taken out", (list) => list.people.pop()],
  ])("%s is not believed: nothing is recorded, and the log tells", async (_how, edit) => {
    const { folder, kept, store } = await broken(edited(edit));
    const why =
      /operators\.json was changed outside of Sievewright: it is not the list that entry \d+ of 2026-11-24 tells of/;
    expect(store.operators.trouble).toMatch(why);
    expect(store.problems.join()).toMatch(why);
    expect(mustNot(await store.signOn({ initials: "ML", pin: PINS.KO }))).toMatch(why);
    expect(mustNot(await store.record(note("after")))).toMatch(why);
    expect(mustNot(await store.operators.recover(PINS.KO, { initials: "SB", pin: "556102" }, ""))).toMatch(why);
    expect(mustNot(await store.operators.declare("none", whoOf("SB"), ""))).toMatch(why);
    await store.close();
    writeFileSync(join(folder, "operators.json"), kept);
    const again = await openAt(folder);
    expect(again.operators.trouble).toBeNull();
    must(await again.signOn(whoOf("KO")));
    expect(await told(again)).toContain("finding");
  });

  test("an older list put back is not believed either: who was retired stays so", async () => {
    const folder = await temporaryFolder();
    const { store } = await staffedAt(folder);
    const before = listAt(folder);
    must(await store.signOn(whoOf("SB")));
    must(await store.operators.change({ event: "retired", initials: "KO", reason: "left" }));
    await store.close();
    writeFileSync(join(folder, "operators.json"), before);
    expect(mustNot(await (await openAt(folder)).signOn(whoOf("KO")))).toContain("changed outside of Sievewright");
  });

  test("wrong PINs and a list written in another order of fields are no change", async () => {
    const folder = await temporaryFolder();
    const { store } = await staffedAt(folder);
    await guesses(store, "KO", 2);
    await store.close();
    const list = JSON.parse(listAt(folder));
    writeFileSync(join(folder, "operators.json"), JSON.stringify(Object.fromEntries(Object.entries(list).reverse())));
    const again = await openAt(folder);
    expect(again.operators.trouble).toBeNull();
    must(await again.signOn(whoOf("KO")));
  });

  test("a list that an older program's log doesn't tell of is taken as it is, and told from the first sign-on", async () => {
    const folder = await temporaryFolder();
    const elsewhere = await temporaryFolder();
    await setUpAt(folder);
    await (await openAt(elsewhere)).close();
    writeFileSync(join(elsewhere, "operators.json"), listAt(folder));
    const store = await openAt(elsewhere);
    expect(store.operators.trouble).toBeNull();
    must(await store.signOn(whoOf("SB")));
    const seal = listSealOf(OperatorsSchema.parse(JSON.parse(listAt(elsewhere))));
    expect((await store.entriesOfDay(DAY)).at(-1)).toMatchObject({ kind: "sign-on", listSha256: seal });
  });

  test("a new list takes the place of one that was changed, which is kept beside", async () => {
    const { folder, store } = await broken(
      edited((list) => Object.assign(personIn(list, "KO"), { role: "administrator" })),
    );
    must(await store.operators.startAnew({ initials: "NN", name: "N. New", pin: "556102" }, "changed by hand"));
    expect(store.operators.trouble).toBeNull();
    expect(readFileSync(join(folder, "operators.json.unreadable"), "utf8")).toContain("KO");
    await store.close();
    const again = await openAt(folder);
    mustNot(await again.signOn(whoOf("KO")));
    must(await again.signOn({ initials: "NN", pin: "556102" }));
  });

  test("of a newer program opens for reading only", async () => {
    const { store } = await broken(rewrite({ schema: "sievewright.operators/2" }));
    expect(store.readOnly).toContain("newer Sievewright");
    mustNot(await store.record(note("after")));
  });

  test("switched off by hand is put right by an administrator's PIN", async () => {
    const { store } = await broken(rewrite({ signOn: "none" }));
    must(await store.operators.declare("required", whoOf("SB"), "changed by hand"));
    expect(store.operators.trouble).toBeNull();
    must(await store.signOn(whoOf("KO")));
  });

  test("a new list can be started without the code, and that shows in the log for good", async () => {
    const { store } = await broken((path) => rmSync(path));
    const first = { initials: "NN", name: "N. New", pin: "556102" };
    must(await store.operators.startAnew(first, "disk repaired, no backup"));
    expect(store.operators.trouble).toBeNull();
    must(await store.signOn({ initials: "NN", pin: "556102" }));
    must(await store.record({ ...note("after"), by: "NN" }));
    const { gaps } = signOnGaps(await store.entriesOfDay(DAY));
    expect(gaps).toMatchObject([
      { kind: "operator", by: "NN" },
      { kind: "station declared", by: "NN" },
    ]);
  });

  test("a new list is not started beside one that is there, nor where none was asked for", async () => {
    const first = { initials: "NN", name: "N. New", pin: "556102" };
    const { store } = await staffedAt(await temporaryFolder());
    expect(mustNot(await store.operators.startAnew(first, ""))).toContain("recovery code");
    const plain = await openAt(await temporaryFolder());
    expect(mustNot(await plain.operators.startAnew(first, ""))).toContain("without sign-on");
  });

  test("a declaration that a crash kept from the log is made up for by the next who signs on", async () => {
    const folder = await temporaryFolder();
    await setUpAt(folder);
    const elsewhere = await temporaryFolder();
    await (await openAt(elsewhere)).close();
    writeFileSync(join(elsewhere, "operators.json"), listAt(folder));
    const store = await openAt(elsewhere);
    expect(store.operators.rule).toBe("required");
    must(await store.signOn(whoOf("SB")));
    expect(await told(store)).toEqual(["declared required", "SB on"]);
  });
});

describe("a change that is cut short", () => {
  const first = { initials: "SB", name: "S. Baro", pin: PINS.SB };
  const openOn = async (disk: ModelDisk) =>
    must(await openStore("/station", { now, indexRowOf, create: station, pinCost: CHEAP, disk }));
  const setUpCut = async (path: RegExp) => {
    const disk = new ModelDisk();
    const store = await openOn(disk);
    disk.interference = (step) => (step.call === "write" && path.test(step.path) ? fault("EIO") : null);
    mustNot(await store.operators.setUp(first, "audit"));
    disk.interference = () => null;
    return openOn(disk.afterPowerCut(() => 0));
  };

  test("before the log has it leaves the station as it was", async () => {
    const store = await setUpCut(/\/log\/2026\//);
    expect(store.operators).toMatchObject({ rule: "none", known: false, trouble: null });
    must(await store.operators.setUp(first, "audit"));
  });

  test("after the log has it is carried to its end, and a code that nobody saw is told with the way to another", async () => {
    const store = await setUpCut(/\/operators\.json/);
    expect(store.operators).toMatchObject({ rule: "required", known: true, trouble: null });
    expect(store.problems.join()).toMatch(/recovery code .* never shown.*recover --anew/);
    must(await store.signOn(whoOf("SB")));
  });

  test("of a role is carried to its end without a word of the code, and what lay beside is gone", async () => {
    const disk = new ModelDisk();
    const store = await openOn(disk);
    must(await store.operators.setUp(first, "audit"));
    must(await store.signOn(whoOf("SB")));
    const added = { initials: "KO", name: "K", role: "operator", pin: PINS.KO, reason: "" } as const;
    disk.interference = (step) =>
      step.call === "write" && step.path.includes("/operators.json") ? fault("EIO") : null;
    mustNot(await store.operators.change({ event: "added", ...added }));
    disk.interference = () => null;
    const again = await openOn(disk.afterPowerCut(() => 0));
    expect([again.problems, again.operators.people().length]).toEqual([[], 2]);
    expect((await again.operators.people()).map(({ initials }) => initials)).toEqual(["SB", "KO"]);
    must(await again.signOn(whoOf("KO")));
  });
});

describe("recovering", () => {
  test("brings nobody back who is retired", async () => {
    const { store, code } = await staffedAt(await temporaryFolder());
    must(await store.signOn(whoOf("SB")));
    must(await store.operators.change({ event: "role changed", initials: "ML", role: "administrator", reason: "" }));
    must(await store.operators.change({ event: "retired", initials: "SB", reason: "left" }));
    const why = mustNot(await store.operators.recover(code, { initials: "SB", pin: "556102" }, ""));
    expect(why).toContain("SB is retired: name an administrator who is not");
    must(await store.operators.recover(code, { initials: "ML", pin: "556102" }, ""));
  });

  test("by the code gives an administrator a new PIN, uses the code up, and shows as done without a PIN", async () => {
    const folder = await temporaryFolder();
    const { store, code } = await staffedAt(folder);
    const typed = ` ${code.toLowerCase().replaceAll("-", " ")}`;
    const next = must(await store.operators.recover(typed, { initials: "SB", pin: "556102" }, "PIN forgotten")).code;
    expect(next).not.toBe(code);
    mustNot(await store.signOn(whoOf("SB")));
    must(await store.signOn({ initials: "SB", pin: "556102" }));
    expect(mustNot(await store.operators.recover(code, whoOf("SB"), ""))).toBe("this is not the recovery code");
    must(await store.operators.recover(next, whoOf("SB"), ""));
    const { gaps } = signOnGaps(await store.entriesOfDay(DAY));
    expect(gaps.map(({ kind }) => kind)).toContain("operator");
  });

  test("makes nobody an administrator who was none", async () => {
    const { store, code } = await staffedAt(await temporaryFolder());
    for (const initials of ["KO", "XX"])
      expect(mustNot(await store.operators.recover(code, { initials, pin: "556102" }, ""))).toContain(
        "name one of the station's administrators",
      );
  });

  test("wrong codes wait as wrong PINs do, and leave the PINs alone", async () => {
    const { store, code } = await staffedAt(await temporaryFolder());
    const wrong = "2222-3333-4444-5555-6666";
    for (let i = 0; i < 3; i += 1) mustNot(await store.operators.recover(wrong, whoOf("SB"), ""));
    expect(mustNot(await store.operators.recover(code, whoOf("SB"), ""))).toBe(
      "too many wrong PINs: try again in 30 s",
    );
    must(await store.signOn(whoOf("SB")));
  });
});

describe("a station without sign-on", () => {
  const declaring = async (folder: string) => opened(folder, { declares: true });

  test("says so before its first entry, and only then", async () => {
    const folder = await temporaryFolder();
    const store = await declaring(folder);
    expect(must(await store.record(note("first")))).toMatchObject({ kind: "note", number: 2 });
    must(await store.record(note("second")));
    await store.close();
    const again = await declaring(folder);
    must(await again.record(note("third")));
    const entries: readonly LogEntry[] = await again.entriesOfDay(DAY);
    expect(entries.map(({ kind }) => kind)).toEqual(["station declared", "note", "note", "note"]);
    expect(entries[0]).toMatchObject({ signOn: "none", by: "KO", number: 1 });
  });

  test("counts what was asked for, not what was declared", async () => {
    const store = await declaring(await temporaryFolder());
    expect(must(await store.recordAll([note("one"), note("two")]))).toBe(2);
    expect(await told(store)).toEqual(["declared none", "note", "note"]);
  });

  test("that begins with sign-on declares that alone", async () => {
    const store = await declaring(await temporaryFolder());
    must(await store.operators.setUp({ initials: "SB", name: "S. Baro", pin: PINS.SB }, ""));
    expect(await told(store)).toEqual(["SB added", "declared required"]);
  });
});
