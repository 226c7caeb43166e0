export interface Timers {
  readonly setTimer?: (run: () => void, ms: number) => unknown;
  readonly clearTimer?: (timer: unknown) => void;
}

/** One timer that can be set again; setting it clears the one before. */
export interface Alarm {
  set(ms: number, run: () => void): void;
  clear(): void;
  isSet(): boolean;
}

export function createAlarm(timers: Timers): Alarm {
  const { setTimer = setTimeout, clearTimer = (timer) => clearTimeout(timer as NodeJS.Timeout) } = timers;
  let pending: { readonly timer: unknown } | null = null;
  const clear = () => {
    if (pending) clearTimer(pending.timer);
    pending = null;
  };
  return {
    clear,
    isSet: () => pending !== null,
    set(ms, run) {
      clear();
      const ring = () => {
        pending = null;
        run();
      };
      pending = { timer: setTimer(ring, ms) };
    },
  };
}
