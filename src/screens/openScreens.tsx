import { uptime } from "node:os";
import { momentsIn } from "../record/moment.ts";
import type { Store } from "../store/store.ts";
import { createBell } from "../terminal/bell.ts";
import { mountScreens } from "../terminal/mount.tsx";
import { sizeOf } from "../terminal/size.ts";
import { background } from "./effects/background.ts";
import type { Place } from "./place.ts";
import { Screens } from "./Screens.tsx";
import { createShell } from "./shell.ts";

const TICK_MS = 1000;

/** A place by its name, with nothing that was entered there. */
const placeWords = (place: Place): string => (place.name === "run" ? `run, ${place.run.draft.stage}` : place.name);

/** Shows the screens on a store until the operator leaves; everything accepted is on disk by then. */
export async function openScreens(
  store: Store,
  now: () => string,
  programVersion: string,
  at: { place: () => string },
): Promise<number> {
  const { stdin, stdout } = process;
  const [clockMs, size] = [() => performance.now(), () => sizeOf(stdout)];
  const shell = createShell({ store, now, programVersion, bell: createBell(stdout), clockMs, size });
  at.place = () => placeWords(shell.app().place);
  const screens = mountScreens(<Screens shell={shell} />, { stdin, stdout, onKey: shell.press });
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
