import type { Key } from "../terminal/keys.ts";
import type { App, Place } from "./place.ts";
import { roomOf } from "./rooms.ts";

type Entry = Extract<Key, { name: "entry" }>;

/** A character that was typed, and the place before and after it. */
interface Lead {
  readonly text: string;
  readonly before: Pick<App, "place" | "message">;
  readonly after: Place;
  readonly atMs: number;
}

/** No burst begins with more of the same character than this. */
const MOST_LEADS = 60;

/** Plus and minus move between rows; in front of a mass that comes within this they were its sign, split off by a slow link. */
const SIGN_MS = 500;
const isSign = ({ text }: Lead): boolean => text === "+" || text === "-";

/** Remembers characters just typed, so that a burst which turns out to have begun with them can be taken as a whole. */
export interface LeadKeeper {
  /** A key was taken: the state before it and after it. */
  took(key: Key, before: App, after: App, atMs: number): void;
  /** The burst with the characters that went ahead of it, and the state without them; any other key as it is. */
  whole(app: App, key: Key, atMs: number): { readonly app: App; readonly key: Key };
}

export function leadKeeper(): LeadKeeper {
  let leads: readonly Lead[] = [];

  /** The state before the burst's first character; null where these were not the last characters typed here. */
  const beforeBurst = (app: App, led: string): App | null => {
    const own = leads.slice(-[...led].length);
    const [first] = own;
    const isOwn = own.map(({ text }) => text).join("") === led && first?.before.place.name === app.place.name;
    if (first === undefined || !isOwn) return null;
    const { place, message } = first.before;
    const isUnbroken = own.every(({ after }, i) => after === (own[i + 1]?.before.place ?? app.place));
    // What was learnt behind the scenes meanwhile stays: only the characters go.
    return isUnbroken ? { ...app, place, message } : own.reduce((left) => roomOf(left.place).erased(left).app, app);
  };

  /** The sign that a burst lost to a key for moving, and what was typed behind it; nothing where there was none. */
  const splitSign = (led: string, atMs: number): string => {
    const ahead = leads.slice(0, leads.length - [...led].length);
    const own = ahead.slice(Math.max(0, ahead.findLastIndex(isSign)));
    const [sign] = own;
    return sign !== undefined && isSign(sign) && atMs - sign.atMs < SIGN_MS ? own.map(({ text }) => text).join("") : "";
  };

  return {
    took(key, before, after, atMs) {
      const typed = key.name === "char" && before.place !== after.place && before.place.name === after.place.name;
      leads = typed ? [...leads, { text: key.text, before, after: after.place, atMs }].slice(-MOST_LEADS) : [];
    },
    whole(app, key, atMs) {
      if (key.name !== "entry") return { app, key };
      const { led: typed = "", ...entry }: Entry & { led?: string } = key;
      const led = splitSign(typed, atMs) + typed;
      if (led === "") return { app, key };
      const before = beforeBurst(app, led);
      if (before === null) return { app, key: entry };
      return { app: before, key: { ...entry, text: led + entry.text } };
    },
  };
}
