import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, onTestFinished, test, vi } from "vitest";
import { createShell, type Shell } from "../../src/screens/shell.ts";
import type { Store } from "../../src/store/store.ts";
import type { NamedKey } from "../../src/terminal/keys.ts";
import { FILTER_SAND, Hands } from "../run/hands.ts";
import { must } from "../store/opened.ts";
import { openAt, PINS, staffedAt } from "../store/peopleAt.ts";
import { temporaryFolder } from "../store/temporaryFolder.ts";

vi.setConfig({ testTimeout: 60_000 });

const DAY = "2026-11-24";

/** The screens on a real store, with a clock that the test moves; waits for what the disk has to say. */
async function screensOn(store: Store, clock: { now: () => string }) {
  let ms = 0;
  const shell: Shell = createShell({
    store,
    now: clock.now,
    programVersion: "test",
    bell: () => undefined,
    clockMs: () => {
      ms += 1000;
      return ms;
    },
  });
  const comes = (what: string, is: () => boolean) =>
    vi.waitFor(
      () => (is() ? undefined : expect.fail(`${what} did not come: ${JSON.stringify(shell.app().place)}`)),
      20_000,
    );
  const types = (text: string) => {
    for (const character of text) shell.press({ name: "char", text: character });
  };
  const presses = (...names: NamedKey[]) => {
    for (const name of names) shell.press({ name });
  };
  const at = (name: string) => comes(name, () => shell.app().place.name === name);
  const signsOn = async (initials: keyof typeof PINS) => {
    types(initials);
    presses("enter");
    types(PINS[initials]);
    presses("enter");
    await comes(`${initials} on`, () => shell.app().session?.initials === initials);
  };
  await comes("the log", () => shell.app().recent !== null);
  return { shell, types, presses, at, comes, signsOn };
}

function aClock() {
  let ms = Date.UTC(2026, 10, 24, 8);
  return {
    now: () => `${new Date(ms).toISOString().slice(0, 19)}+00:00`,
    goes: (minutes: number) => {
      ms += minutes * 60_000;
    },
  };
}

async function station() {
  const clock = aClock();
  const folder = await temporaryFolder();
  const { store } = await staffedAt(folder, clock.now);
  must(await store.saveDraft(new Hands().setsOut().run.draft));
  must(await store.signOn({ initials: "ML", pin: PINS.ML }));
  const loading = { fromPath: "x", bytesSha256: "0".repeat(64), by: "ML", at: clock.now() };
  must(await store.addProduct(FILTER_SAND, loading));
  await store.close();
  const again = await openAt(folder, clock.now);
  onTestFinished(() => again.close());
  return { clock, folder, store: again };
}

describe("the screens of a station that asks people to sign on", () => {
  test("begin with signing on, then show the bench with who works there", async () => {
    const { clock, store } = await station();
    const { shell, at, signsOn, types } = await screensOn(store, clock);
    expect(shell.app().place.name).toBe("signOn");
    types("n");
    expect(shell.app().place).toMatchObject({ name: "signOn", initials: "n" });
    shell.press({ name: "backspace" });
    await signsOn("KO");
    await at("bench");
    expect(shell.app().operator).toBe("KO");
  });

  test("a wrong PIN keeps the initials and asks again", async () => {
    const { clock, store } = await station();
    const { shell, presses, types, comes } = await screensOn(store, clock);
    types("KO");
    presses("enter");
    types("000000");
    presses("enter");
    await comes("a refusal", () => shell.app().message === "initials and PIN don't match");
    expect(shell.app().place).toMatchObject({ name: "signOn", field: "pin", initials: "KO", pin: "", busy: false });
  });

  test("after ten minutes without a key ask again, over the half-typed mass, which is there after", async () => {
    const { clock, store } = await station();
    const { shell, at, signsOn, types, presses, comes } = await screensOn(store, clock);
    await signsOn("KO");
    await at("bench");
    presses("enter");
    await at("run");
    types("412.3");
    const before = JSON.stringify(shell.app().place);
    clock.goes(9.9);
    shell.tick();
    expect(shell.app().place.name).toBe("run");
    clock.goes(0.1);
    shell.tick();
    expect(shell.app().place.name).toBe("signOn");
    expect(shell.app().message).toContain("KO was signed off: no key for 10 min");
    await comes("the signing off", () => store.session === null);
    types("7");
    presses("backspace");
    await signsOn("ML");
    expect(JSON.stringify(shell.app().place)).toBe(before);
    expect(store.drafts()).toHaveLength(1);
    const told = (await store.entriesOfDay(DAY)).flatMap((entry) =>
      entry.kind === "sign-on" ? [`${entry.who} ${entry.event}`] : [],
    );
    expect(told.slice(-3)).toEqual(["KO on", "KO idle", "ML on"]);
  });

  test("a key keeps whoever is signed on there", async () => {
    const { clock, store } = await station();
    const { shell, at, signsOn, presses } = await screensOn(store, clock);
    await signsOn("KO");
    await at("bench");
    for (let i = 0; i < 5; i += 1) {
      clock.goes(9);
      presses("down");
      shell.tick();
    }
    expect(shell.app().session?.initials).toBe("KO");
  });

  test("the next takes over with o, without the one before being asked", async () => {
    const { clock, store } = await station();
    const { shell, at, signsOn, types } = await screensOn(store, clock);
    await signsOn("KO");
    await at("bench");
    types("o");
    await signsOn("ML");
    await at("bench");
    expect(shell.app().session).toMatchObject({ initials: "ML", role: "quality" });
  });

  test("leaving says in the log that they went", async () => {
    const { clock, store, folder } = await station();
    const { shell, at, signsOn, presses } = await screensOn(store, clock);
    await signsOn("KO");
    await at("bench");
    presses("ctrl+c");
    await shell.left;
    await store.close();
    const again = await openAt(folder, clock.now);
    expect((await again.entriesOfDay(DAY)).at(-1)).toMatchObject({ kind: "sign-on", who: "KO", event: "off" });
  });
});

test("sign-on is set up on the screens: a code is shown, the list is there, and the first administrator works on", async () => {
  const clock = aClock();
  const folder = await temporaryFolder();
  const store = await openAt(folder, clock.now);
  const { shell, at, types, presses, comes } = await screensOn(store, clock);
  types("a");
  await at("operators");
  types("n");
  for (const answer of ["SB", "S. Baro", PINS.SB, PINS.SB]) {
    types(answer);
    presses("enter");
  }
  const code = () => {
    const { place } = shell.app();
    return place.name === "operatorForm" ? place.code : null;
  };
  await comes("the code", () => code() !== null);
  expect(readFileSync(join(folder, "operators.json"), "utf8")).not.toContain(code());
  expect(shell.app().session).toMatchObject({ initials: "SB", role: "administrator" });
  presses("enter");
  await at("operators");
  expect(shell.app().people).toMatchObject({ rule: "required", known: true, list: [{ initials: "SB" }] });
  types("t");
  presses("enter");
  for (const answer of [PINS.SB, "trial over"]) {
    types(answer);
    presses("enter");
  }
  await comes("no sign-on", () => shell.app().people.rule === "none");
  expect(shell.app()).toMatchObject({ session: null, place: { name: "operators" } });
});
