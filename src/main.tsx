import { atTheStart, faultTeller, type Whereabouts } from "./commands/faultTeller.ts";
import type { Filling } from "./demo/fillStation.ts";
import type { Outcome } from "./entry/outcome.ts";
import type { OpenOptions } from "./store/openStore.ts";
import type { Store } from "./store/store.ts";
import { launch } from "./terminal/launcher.ts";
import { drawable } from "./terminal/sanitise.ts";

declare const SIEVEWRIGHT_VERSION: string;

/** `sievewright` and `sievewright --data FOLDER` open the screens; everything else is a command. */
function screensFolder([first, second, ...rest]: readonly string[]): { readonly asked: string | undefined } | null {
  if (first === undefined) return { asked: undefined };
  if (first === "--data" && second !== undefined && rest.length === 0) return { asked: second };
  return first.startsWith("--data=") && second === undefined ? { asked: first.slice("--data=".length) } : null;
}

async function clockIn(timeZone: string): Promise<() => string> {
  const { momentsIn } = await import("./record/moment.ts");
  const moment = momentsIn(timeZone, Intl.DateTimeFormat().resolvedOptions().timeZone);
  return () => moment(Date.now());
}

/** A window closed a moment ago may still hold the station; it is asked for again before it opens for reading only. */
const TRIES = 6;
const BETWEEN_TRIES_MS = 300;

async function openPatiently(folder: string, options: OpenOptions): Promise<Outcome<Store>> {
  const { openStore } = await import("./store/openStore.ts");
  for (let attempt = 1; ; attempt++) {
    const store = await openStore(folder, options);
    if (!store.ok || store.value.readOnly === null || attempt === TRIES) return store;
    await store.value.close();
    await new Promise((resolve) => setTimeout(resolve, BETWEEN_TRIES_MS));
  }
}

/** Opens a station's folder, making a station where there is none yet, and shows the screens on it. */
async function showStation(asked: string | undefined, at: Whereabouts): Promise<number> {
  const [{ dataFolder }, { indexRowOf }, { newStation }, { openScreens }] = await Promise.all([
    import("./store/dataFolder.ts"),
    import("./store/indexRowOf.ts"),
    import("./commands/newStation.ts"),
    import("./screens/openScreens.tsx"),
  ]);
  const create = newStation();
  const opening = await clockIn(create.timeZone);
  const store = await openPatiently(dataFolder(asked, process.env), {
    now: opening,
    indexRowOf,
    create,
    declares: true,
  });
  if (!store.ok) return refuse(store.reason, 74);
  at.folder = store.value.folder;
  at.now = await clockIn(store.value.station.timeZone);
  return openScreens(store.value, at.now, SIEVEWRIGHT_VERSION, at);
}

/** One line on standard error, once the terminal is given back. */
function refuse(reason: string, code: number): number {
  process.once("exit", () => process.stderr.write(`sievewright: ${drawable(reason)}\n`));
  return code;
}

/** Runs the screens; a fault in them is told with where they were, and a report of it kept. */
function launchTelling(start: (at: Whereabouts) => Promise<number>): Promise<Outcome<number>> {
  const at = atTheStart();
  return launch(() => start(at), process, faultTeller(SIEVEWRIGHT_VERSION, at));
}

async function showDemo(filling: Filling, tour: boolean) {
  const { withDemoStation } = await import("./demo/temporaryStation.ts");
  const { done, faulty } = await import("./commands/ending.ts");
  const now = await clockIn("Europe/Berlin");
  if (process.stderr.isTTY) process.stderr.write("setting out an invented plant ...\n");
  const shown = await withDemoStation(filling, now, async (store) => {
    const screens = await launchTelling(async (at) =>
      (await import("./screens/openScreens.tsx")).openScreens(store, now, filling.programVersion, at, tour),
    );
    if (screens.ok) return done("", screens.value);
    const { printedBench } = await import("./screens/printBench.ts");
    return done(await printedBench(store, now(), filling.programVersion));
  });
  return shown.ok ? shown.value : faulty(74, shown.reason);
}

async function runCommands(argv: readonly string[]): Promise<number> {
  const { runCommand } = await import("./commands/program.ts");
  const { stdout, stderr, stdin, env } = process;
  const now = await clockIn(Intl.DateTimeFormat().resolvedOptions().timeZone);
  const askHidden = async (words: string) => (await import("./terminal/askHidden.ts")).askHidden(words, process);
  const screensHelp = async () => (await import("./screens/help/screensHelp.ts")).screensHelp();
  const machine = { stdout, stderr, stdin, env, now, version: SIEVEWRIGHT_VERSION };
  return runCommand(argv, { ...machine, showDemo, screensHelp, askHidden });
}

async function main(argv: readonly string[]): Promise<number> {
  const screens = screensFolder(argv);
  if (!screens) return runCommands(argv);
  const launched = await launchTelling((at) => showStation(screens.asked, at));
  return launched.ok ? launched.value : refuse(`${launched.reason}; see sievewright --help`, 64);
}

/** A fault in a command is told as one in the screens is, and not with the line of the bundle that it came from. */
function stopped(fault: unknown): number {
  process.stderr.write(faultTeller(SIEVEWRIGHT_VERSION, atTheStart("a command"))(fault));
  return 70;
}

void main(process.argv.slice(2))
  .catch(stopped)
  .then((code) => {
    process.exitCode = code;
  });
