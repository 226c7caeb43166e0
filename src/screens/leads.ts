import type { Key } from "../terminal/keys.ts";
import type { App, Place } from "./place.ts";
import { roomOf } from "./rooms.ts";

type Entry = Extract<Key, { name: "entry" }>;

/** A character that was typed, and the place before and after it. */
interface Lead {
  readonly text: string;
  readonly before: Pick<App, "place" | "message">;
  readonly after: Place;
}

/** No burst begins with more of the same character than this. */
const MOST_LEADS = 60;

/** Remembers characters just typed, so that a burst which turns out to have begun with them can be taken as a whole. */
export interface LeadKeeper {
  /** A key was taken: the state before it and after it. */
  took(key: Key, before: App, after: App): void;
  /** The burst with the characters that went ahead of it, and the state without them; any other key as it is. */
  whole(app: App, key: Key): { readonly app: App; readonly key: Key };
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

  return {
    took(key, before, after) {
      const typed = key.name === "char" && before.place !== after.place && before.place.name === after.place.name;
      leads = typed ? [...leads, { text: key.text, before, after: after.place }].slice(-MOST_LEADS) : [];
    },
    whole(app, key) {
      if (key.name !== "entry" || key.led === undefined) return { app, key };
      const { led, ...entry }: Entry & { led?: string } = key;
      const before = beforeBurst(app, led);
      if (before === null) return { app, key: entry };
      return { app: before, key: { ...entry, text: led + entry.text } };
    },
  };
}
