import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { frameOf } from "../../src/screens/frame.ts";
import { textOf } from "../../src/screens/line.ts";
import { themeOf } from "../../src/screens/looks.ts";
import type { App, Size } from "../../src/screens/place.ts";
import { PLACE_NAMES } from "../../src/screens/rooms.ts";
import { Screens } from "../../src/screens/Screens.tsx";
import type { Shell } from "../../src/screens/shell.ts";
import type { Store } from "../../src/store/store.ts";
import { type MountedScreens, mountScreens } from "../../src/terminal/mount.tsx";
import { stylesOf } from "../../src/terminal/theme.ts";
import { VISITS } from "../screens/visits.ts";
import { demoPlant, Walker } from "../screens/walking.ts";
import { ShownOutput, TypedInput } from "./screenOf.ts";

const SIZES: readonly Size[] = [
  { columns: 80, rows: 24 },
  { columns: 160, rows: 50 },
  { columns: 50, rows: 12 },
  { columns: 60, rows: 16 },
  { columns: 100, rows: 30 },
];
/** Every change from one size to another, one after the other: from each to all others, and back to where it began. */
const CHANGES: readonly Size[] = [1, 2, 3, 4].flatMap((step) =>
  SIZES.map((_, i) => SIZES[(i * step) % SIZES.length] ?? { columns: 80, rows: 24 }),
);

let plant: Store;
beforeAll(async () => {
  plant = await demoPlant(await mkdtemp(join(tmpdir(), "sievewright-")));
}, 120_000);
afterAll(async () => {
  await plant.close();
  await rm(plant.folder, { recursive: true, force: true });
});

/** What the screens draw from, changed from outside. */
class Seen {
  #listeners = new Set<() => void>();
  app: App;

  constructor(app: App) {
    this.app = app;
  }

  shows(app: App): void {
    this.app = app;
    for (const listener of this.#listeners) listener();
  }

  asShell(): Shell {
    const subscribe = (listener: () => void) => {
      this.#listeners.add(listener);
      return () => this.#listeners.delete(listener);
    };
    return { app: () => this.app, subscribe } as unknown as Shell;
  }
}

const drawnAnew = (app: App, size: Size): string[] => {
  const rows = frameOf(app, size).map((line) => textOf(line).trimEnd());
  return Array.from({ length: size.rows }, (_, row) => rows[row] ?? "");
};

/** States of one place that are looked at. */
const MOST_STATES = 12;
const ALTERNATE_SCREEN = "\x1b[?1049h";
const LONGEST_MS = 5000;

/** The screen once it is as it should be; after a while as it is. */
async function settled(output: ShownOutput, wanted: readonly string[]): Promise<string[]> {
  const giveUpAt = performance.now() + LONGEST_MS;
  for (;;) {
    const rows = (await output.screen()).map((row) => row.trimEnd());
    if (rows.join("\n") === wanted.join("\n") || performance.now() > giveUpAt) return rows;
    await new Promise((resolve) => setTimeout(resolve, 5));
  }
}

describe("a terminal whose size changes while a place is shown", () => {
  test.each(PLACE_NAMES)("shows %s as if it had always had that size, no row of before among it", async (name) => {
    const states: App[] = [];
    const walker = new Walker(plant, (app) => states.push(app));
    await walker.comes((app) => app.recent !== null && app.products.length > 0);
    await VISITS[name](walker);
    const [first] = states;
    if (first === undefined) throw new Error(`${name} was not seen`);
    const [seen, output, input] = [new Seen(first), new ShownOutput(80, 24), new TypedInput()];
    output.spoil(ALTERNATE_SCREEN); // as the launcher has it: nothing is wrapped or scrolled away by the terminal itself
    const screens: MountedScreens = mountScreens(<Screens shell={seen.asShell()} depth="all" />, {
      stdin: input.asStream(),
      stdout: output.asStream(),
      onKey: () => undefined,
      ascii: false,
      rowsMade: true, // as on a real terminal
    });
    screens.ground(stylesOf(themeOf(first), "all").ground);
    try {
      for (const [i, app] of states.slice(0, MOST_STATES).entries()) {
        seen.shows(app);
        for (const size of i === 0 ? CHANGES : CHANGES.slice(i, i + 3)) {
          output.resize(size.columns, size.rows);
          const wanted = drawnAnew(app, size);
          expect(await settled(output, wanted)).toEqual(wanted);
        }
      }
    } finally {
      screens.unmount();
      await screens.finished;
    }
  });
});
