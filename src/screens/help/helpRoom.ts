import { GENERAL_KEYS } from "../general.ts";
import { type Line, line, span } from "../line.ts";
import type { Place } from "../place.ts";
import { type App, leave, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";

/** A key's name as it stands on the keyboard. */
export const keyText = (key: string): string =>
  key === "escape" ? "Esc" : key.length === 1 ? key : key.charAt(0).toUpperCase() + key.slice(1);

const keyLine = ({ keys, help }: Binding): Line => [
  span(`  ${keys.map(keyText).join(", ")}`.padEnd(22), "key"),
  span(help),
];

type RoomOf = (place: Place) => Room;

/** The help page of a place, drawn from the same table as its footer. */
export function helpRoomWith(roomOf: RoomOf): Room {
  const linesFor = (app: App): readonly Line[] => {
    const { of } = here(app, "help");
    const room = roomOf(of);
    const keys = room.keys({ ...app, place: of });
    return [
      ...room.about.map((text) => line(`  ${text}`)),
      [],
      ...keys.map(keyLine),
      [],
      line("  everywhere", "strong"),
      ...GENERAL_KEYS.map(keyLine),
      [],
      line("  sizes in um below 1 mm and mm above; masses in g; percent by mass", "dim"),
      line("  dust, noise, heavy stacks: your site's rules and licensed practice come first", "dim"),
    ];
  };
  const scroll = (app: App, by: number): Step => {
    const place = here(app, "help");
    const last = Math.max(0, linesFor(app).length - 5);
    return step({ ...app, message: null, place: { ...place, from: Math.max(0, Math.min(last, place.from + by)) } });
  };
  const keys: readonly Binding[] = [
    { keys: ["escape", "enter", "?"], word: "back", help: "Back to work.", does: (app) => step(leave(app)) },
    { keys: ["up"], word: "scroll", help: "A line up.", does: (app) => scroll(app, -1) },
    { keys: ["down"], word: "scroll", help: "A line down.", does: (app) => scroll(app, 1), quiet: true },
  ];
  return {
    title: (app) => ({ left: `help: ${here(app, "help").of.name}`, right: [] }),
    body: (app, size: Size) => linesFor(app).slice(here(app, "help").from).slice(0, size.rows),
    keys: () => keys,
    field: () => "none",
    typed: (app) => stay(app),
    erased: (app) => stay(app),
    scanned: (app) => stay(app),
    about: [],
  };
}
