import { describe, expect, test } from "vitest";
import { blanked, woken } from "../../src/screens/idle.ts";
import { createShell } from "../../src/screens/shell.ts";
import type { Store } from "../../src/store/store.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import { must, opened } from "../store/opened.ts";
import { product } from "../store/records.ts";
import { temporaryFolder } from "../store/temporaryFolder.ts";
import { anApp, STATION, Stage } from "./stage.ts";

const DARK = { ...STATION, screen: { blankMinutes: 10 } };
const later = (app: ReturnType<typeof anApp>, minutes: number) =>
  new Date(Date.parse(app.touchedAt) + minutes * 60_000).toISOString();

describe("a screen left alone", () => {
  test("goes dark after the station's minutes, not before, and never where nothing is set", () => {
    const app = anApp({ station: DARK });
    expect(blanked(app, later(app, 9.9)).blank).not.toBe(true);
    expect(blanked(app, later(app, 10)).blank).toBe(true);
    expect(blanked(anApp(), later(app, 600)).blank).not.toBe(true);
  });

  test("begins anew where the clock was set back", () => {
    const app = anApp({ station: DARK });
    const back = blanked(app, later(app, -30));
    expect(back.blank).not.toBe(true);
    expect(blanked(back, later(app, -21)).blank).not.toBe(true);
    expect(blanked(back, later(app, -20)).blank).toBe(true);
  });

  test("shows nothing of the work, only how to come back, at every size", () => {
    const stage = new Stage(anApp({ station: DARK })).types("n").presses("enter").types("4471");
    stage.app = { ...stage.app, blank: true };
    for (const size of [
      { columns: 80, rows: 24 },
      { columns: 60, rows: 16 },
      { columns: 20, rows: 5 },
    ]) {
      const lines = stage.lines(size);
      expect(lines.join("")).not.toContain("4471");
      expect(lines.join("")).toContain("any");
      expect(lines.length).toBe(size.rows - 1);
      expect(Math.max(...lines.map(columnsOf))).toBeLessThanOrEqual(size.columns);
    }
  });

  test("says of a scan that woke it that it was not taken", () => {
    const dark = anApp({ blank: true });
    expect(woken(dark, { name: "entry", text: "412.31", ended: true }, dark.now).message).toContain("was not taken");
    expect(woken(dark, { name: "enter" }, dark.now).message).toBe(null);
  });
});

/** The screens on a real store, with two clocks that the test moves. */
async function screens(store: Store) {
  let ms = Date.UTC(2026, 10, 24, 2, 12);
  let clockMs = 0;
  const shell = createShell({
    store,
    now: () => `${new Date(ms).toISOString().slice(0, 19)}+00:00`,
    programVersion: "test",
    bell: () => undefined,
    clockMs: () => clockMs,
  });
  await expect.poll(() => shell.app().products.length).toBeGreaterThan(0);
  const press = (...keys: string[]) => {
    for (const key of keys) {
      clockMs += 1000;
      shell.press(key === "enter" ? { name: key } : { name: "char", text: key });
    }
  };
  return {
    shell,
    press,
    burst: (text: string, ended: boolean) => shell.press({ name: "entry", text, ended }),
    leftFor: (minutes: number) => {
      ms += minutes * 60_000;
      shell.tick();
    },
  };
}

describe("an hour away, in the middle of a mass", () => {
  test("any key brings back what was there and does nothing else; the next one works", async () => {
    const inner = await opened(await temporaryFolder());
    must(
      await inner.addProduct(product, {
        fromPath: "x",
        bytesSha256: "0".repeat(64),
        by: "KO",
        at: "2026-11-01T06:00:00+01:00",
      }),
    );
    const store = new Proxy(inner, {
      get: (of, name) => (name === "station" ? { ...of.station, screen: { blankMinutes: 10 } } : bound(of, name)),
    });
    const { shell, press, leftFor, burst } = await screens(store);
    press("n", "enter", "enter", "enter", "enter", "3", "0");
    const before = JSON.stringify(shell.app().place);
    leftFor(60);
    expect(shell.app().blank).toBe(true);
    press("7");
    expect(shell.app().blank).toBe(false);
    expect(JSON.stringify(shell.app().place)).toBe(before);
    burst("12.3", true);
    expect(JSON.stringify(shell.app().place)).toBe(before);
    press("0");
    expect(JSON.stringify(shell.app().place)).toContain('"typed":"300"');
    leftFor(9);
    expect(shell.app().blank).toBe(false);
  });
});

function bound(of: Store, name: string | symbol): unknown {
  const member: unknown = Reflect.get(of, name, of);
  return typeof member === "function" ? member.bind(of) : member;
}
