import { shiftBegan } from "../../shift/schedule.ts";
import { noteClock, recordStep, stepInWords } from "../../store/clockNote.ts";
import { clockWatch } from "../../store/clockStep.ts";
import { copyPlace } from "../../store/copyWitness.ts";
import type { Store } from "../../store/store.ts";

/** What the work behind the screens needs. */
export interface Behind {
  readonly store: Store;
  /** The moment now, and any other instant as a moment of the station's clock. */
  readonly now: () => string;
  readonly momentOf: (ms: number) => string;
  readonly programVersion: string;
  /** Runs only forward, also while the computer sleeps. */
  readonly counterMs: () => number;
  /** Shows the operator what went wrong or was noticed. */
  readonly tell: (problem: string) => void;
}

/** Ticks until the copy at the start: the first frame and the first keys come first. */
const COPY_AFTER_TICKS = 5;
/** Ticks between two looks at whether a shift has ended. */
const SHIFT_TICKS = 30;

/**
 * What goes on behind the screens once a second: the clock is watched, and the station's files are copied some seconds after
 * the start and when a shift ends. Nothing here holds up a key or a save; what fails is told. A demo station has neither.
 */
export function background(behind: Behind): { readonly tick: () => void } {
  const { store, now, tell } = behind;
  const step = clockWatch(() => Date.parse(now()), behind.counterMs, behind.momentOf);
  const copies = copier(behind);
  let ticks = 0;
  let shift: string | null = null;

  const tick = (): void => {
    if (store.station.demo || store.readOnly !== null) return;
    ticks += 1;
    const set = step();
    if (ticks === 1)
      void noteClock(store, now()).then((noted) => noted.ok && noted.value && tell(stepInWords(noted.value)));
    else if (set !== null) void recordStep(store, set, now()).then(() => tell(stepInWords(set)));
    if (ticks === COPY_AFTER_TICKS) copies();
    if (ticks % SHIFT_TICKS !== 0) return;
    const began = shiftBegan(now(), store.station);
    if (shift !== null && began !== shift) copies();
    shift = began;
  };
  return { tick };
}

/** Makes a copy; one that is asked for while another is being made follows it. */
function copier({ store, now, programVersion, tell }: Behind): () => void {
  let last: Promise<void> = Promise.resolve();
  const copy = async (): Promise<void> => {
    const { rollingCopy } = await import("../../store/backupRolling.ts"); // no start waits for it
    const at = now();
    const copied = await rollingCopy({
      folder: store.folder,
      place: copyPlace(store.folder, store.station),
      about: { station: store.station.station, at, program: programVersion },
      nowMs: Date.parse(at),
      goOn: () => store.readOnly === null,
    });
    if (!copied.ok) tell(copied.reason);
  };
  return () => {
    last = last.then(copy);
  };
}
