import type { Store } from "../store/store.ts";
import { createBell } from "../terminal/bell.ts";
import { mountScreens } from "../terminal/mount.tsx";
import { Screens } from "./Screens.tsx";
import { createShell } from "./shell.ts";

const TICK_MS = 1000;

/** Shows the screens on a store until the operator leaves; everything accepted is on disk by then. */
export async function openScreens(store: Store, now: () => string, programVersion: string): Promise<number> {
  const { stdin, stdout } = process;
  const shell = createShell({ store, now, programVersion, bell: createBell(stdout), clockMs: () => performance.now() });
  const screens = mountScreens(<Screens shell={shell} />, { stdin, stdout, onKey: shell.press });
  const clock = setInterval(shell.tick, TICK_MS);
  await Promise.race([shell.left, screens.finished]);
  clearInterval(clock);
  screens.unmount();
  await screens.finished;
  await store.close();
  return 0;
}
