import { uptime } from "node:os";
import { momentsIn } from "../record/moment.ts";
import { readScreenChoice } from "../store/screenFile.ts";
import type { Store } from "../store/store.ts";
import { createBell } from "../terminal/bell.ts";
import { colourDepth } from "../terminal/colour.ts";
import { mountScreens } from "../terminal/mount.tsx";
import { wantsReader } from "../terminal/reader.ts";
import { sizeOf } from "../terminal/size.ts";
import { stylesOf } from "../terminal/theme.ts";
import { mannerOf } from "../words/manner.ts";
import { fetchLanguage } from "../words/speaking.ts";
import { background } from "./effects/background.ts";
import type { LookAtStart } from "./effects/desk.ts";
import { themeOf } from "./looks.ts";
import type { Place } from "./place.ts";
import { Reading } from "./Reading.tsx";
import { Screens } from "./Screens.tsx";
import { createShell } from "./shell.ts";

const TICK_MS = 1000;

/** A place by its name, with nothing that was entered there. */
const placeWords = (place: Place): string => (place.name === "run" ? `run, ${place.run.draft.stage}` : place.name);

/** What was chosen here last, else what the station says; how it is read out is settled once, now. */
async function lookAtStart({ folder, station }: Store): Promise<LookAtStart> {
  const choice = await readScreenChoice(folder);
  const chosen = choice.ok ? choice.value?.theme : undefined;
  const theme = chosen ?? station.screen?.theme ?? "dark";
  const reader = wantsReader(process.env) || station.screen?.reader === true;
  const language = (choice.ok ? choice.value?.language : undefined) ?? station.screen?.language ?? "en";
  await fetchLanguage(language);
  return { theme, manner: mannerOf(station, language), reader, problem: choice.ok ? null : choice.reason };
}

/** Shows the screens on a store until the operator leaves; everything accepted is on disk by then. */
export async function openScreens(
  store: Store,
  now: () => string,
  programVersion: string,
  at: { place: () => string },
  tour = false,
): Promise<number> {
  const { stdin, stdout } = process;
  const [clockMs, size] = [() => performance.now(), () => sizeOf(stdout)];
  const look = await lookAtStart(store);
  const depth = colourDepth(process.env, process.platform);
  const shell = createShell({ store, now, programVersion, bell: createBell(stdout), clockMs, size, look, tour });
  at.place = () => placeWords(shell.app().place);
  const element = look.reader ? <Reading shell={shell} /> : <Screens shell={shell} depth={depth} />;
  const ground = () => stylesOf(themeOf(shell.app()), depth).ground;
  const keys = { onKey: shell.press, acts: shell.acts };
  const edge = { stdin, stdout, ...keys, reader: look.reader, rowsMade: true, ground: ground() };
  const screens = mountScreens(element, edge);
  const paintGround = () => screens.ground(ground());
  shell.subscribe(paintGround);
  const momentOf = momentsIn(store.station.timeZone);
  const counterMs = () => uptime() * 1000;
  const behind = background({ store, now, momentOf, programVersion, counterMs, tell: shell.tell });
  const clock = setInterval(() => {
    shell.tick();
    behind.tick();
  }, TICK_MS);
  try {
    await Promise.race([shell.left, screens.finished]);
    screens.unmount();
    await screens.finished;
    return 0;
  } finally {
    clearInterval(clock); // else a fault in drawing would leave the program running, unseen
    await store.close();
  }
}
