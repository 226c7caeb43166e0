import type { Key } from "../terminal/keys.ts";
import { ENGLISH } from "../words/manner.ts";
import { say } from "../words/say.ts";
import { speakIn } from "../words/speaking.ts";
import * as answers from "./answers.ts";
import { bounceGuard } from "./bounce.ts";
import { actsAt, actsNow, pressed } from "./dispatch.ts";
import { carryOut } from "./effects/carryOut.ts";
import type { Desk, Outside } from "./effects/desk.ts";
import { keepBackWhatWasCut } from "./effects/keepBack.ts";
import { blanked, WAKING_MS, woken } from "./idle.ts";
import { leadKeeper } from "./leads.ts";
import { withLook } from "./looks.ts";
import type { App, Effect, Step } from "./place.ts";
import { followDay } from "./products/inForce.ts";
import { startingApp, withLibraryAndLog, withPlanFacts } from "./reading.ts";
import { repeatGuard } from "./repeats.ts";
import { gated, idledOff } from "./signOn/gate.ts";
import { withMarks } from "./stackMarks.ts";
import { toured, withTour } from "./tour/tour.ts";
import { onDiskAgain, savesDue } from "./unsaved.ts";

const unseen = (): string => say`what came while the window was too small was not taken: type or weigh it again`;

/** Ticks between two tries at what the disk refused. */
const RETRY_TICKS = 5;

/** The screens' one piece of changing state, and everything that reaches out from them. */
export interface Shell {
  readonly app: () => App;
  readonly subscribe: (listener: () => void) => () => void;
  readonly press: (key: Key) => void;
  /** Whether a character would do something just now instead of being typed. */
  readonly acts: (text: string) => boolean;
  readonly tick: () => void;
  /** Shows something that went wrong, or was noticed, behind the scenes. */
  readonly tell: (problem: string) => void;
  /** Resolves once the operator has left and everything accepted is on disk. */
  readonly left: Promise<void>;
}

/**
 * Runs the screens' pure steps one after the other and carries out what they ask for. Keys are never kept waiting by
 * the disk: an accepted entry shows its next prompt only once it is saved, but the next digits already type.
 */
export function createShell(outside: Outside): Shell {
  const { store, now, clockMs } = outside;
  const starting = startingApp(store, now(), outside.programVersion);
  let app = withMarks(gated(withLook(outside.tour ? withTour(starting) : starting, outside.look)));
  speakIn(app.manner ?? ENGLISH);
  const listeners = new Set<() => void>();
  const waiting: { readonly key: Key; readonly pressedMs: number }[] = [];
  const bounces = bounceGuard();
  const repeats = repeatGuard();
  const leads = leadKeeper();
  let ready = false;
  let leave: () => void = () => undefined;
  const left = new Promise<void>((resolve) => {
    leave = resolve;
  });
  const pending = new Set<Promise<void>>();
  let ticksSinceTry = 0;
  let wokeMs = Number.NEGATIVE_INFINITY;

  const show = (next: App) => {
    if (next === app) return;
    app = gated(withMarks(onDiskAgain(toured(next))));
    speakIn(app.manner ?? ENGLISH);
    for (const listener of listeners) listener();
  };
  /** What the disk refused is tried once more; it would be lost by leaving: that is asked once. */
  const quit = async () => {
    const asked = app.message;
    tryAgain();
    await Promise.all(pending);
    const warning = say`leaving now loses what is not on disk (${app.notOnDisk ?? ""}): leave again to do so`;
    if (app.notOnDisk && asked !== warning) return show({ ...app, message: warning });
    leave();
  };
  const work = (effect: Exclude<Effect, { do: "quit" }>) => {
    const done = carryOut(desk, effect).finally(() => pending.delete(done));
    pending.add(done);
  };
  const take = ({ app: next, effects }: Step) => {
    show(next);
    for (const effect of effects) {
      if (effect.do === "quit") return void quit();
      work(effect);
    }
  };
  /** Not while anything is on its way: a test that is just being recorded must not come back as a draft. */
  const tryAgain = () => {
    if (!app.notOnDisk || pending.size > 0) return;
    ticksSinceTry = 0;
    for (const effect of savesDue(app)) work(effect);
  };

  const desk: Desk = { ...outside, app: () => app, show, take };

  /** The rest of a scan that woke the screen is part of what woke it. */
  const wakes = (pressedMs: number): boolean => {
    if (app.blank) wokeMs = pressedMs;
    return pressedMs - wokeMs < WAKING_MS;
  };

  /** One key or one whole burst, without what of it had been typed before it was known for one. */
  const act = (from: App, key: Key, pressedMs: number) => {
    if (repeats(key, pressedMs))
      return show({ ...from, message: say`the same came twice within 0.3 s: the second is left out` });
    if (bounces(from, key, pressedMs)) return;
    const window = outside.size?.();
    const present = { ...followDay(from, now()), now: now(), touchedAt: now(), ...(window && { window }) };
    take(pressed(present, key, now()));
    leads.took(key, from, app, pressedMs);
    tryAgain();
  };
  const press = (key: Key, pressedMs = clockMs()) => {
    if (wakes(pressedMs)) return show(woken(app, key, now()));
    if (outside.size && !actsAt(key, outside.size())) return show({ ...app, message: unseen() });
    if (!ready) return void waiting.push({ key, pressedMs });
    const whole = leads.whole(app, key, pressedMs);
    act(whole.app, whole.key, pressedMs);
  };

  void withLibraryAndLog(app, store).then((read) => {
    show(read);
    ready = true;
    for (const { key, pressedMs } of waiting.splice(0)) press(key, pressedMs);
    void withPlanFacts(store, now()).then((learnt) => show(learnt(app)));
    void keepBackWhatWasCut(desk);
    work({ do: "readCare" });
  });

  return {
    app: () => app,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    press: (key) => press(key),
    acts: (text) => actsNow(app, text),
    tell: (problem) => {
      if (!app.problems.includes(problem)) show({ ...app, problems: [...app.problems, problem] });
    },
    tick: () => {
      take(idledOff(app, now()) ?? answers.ticked(app, now()));
      show(blanked(app, now()));
      ticksSinceTry += 1;
      if (ticksSinceTry >= RETRY_TICKS) tryAgain();
    },
    left,
  };
}
