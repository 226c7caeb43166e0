import { say } from "../../words/say.ts";
import { type Line, span } from "../line.ts";
import { type App, leave, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { chosenProgram, motionOf, shakerBody } from "./shakerView.ts";

function move(app: App, by: number): Step {
  const place = here(app, "shaker");
  const at = Math.max(0, Math.min(app.programs.length - 1, place.at + by));
  return step({ ...app, message: null, place: { ...place, at, restated: false } });
}

function restate(app: App): Step {
  const place = here(app, "shaker");
  return step({ ...app, message: null, place: { ...place, restated: !place.restated } });
}

function unrestatable(app: App): string | null {
  const motion = motionOf(app);
  if (!motion) return say`no sieving program in this library`;
  if (!motion.ok) return motion.reason;
  return motion.value.elsewhere ? null : say`only a program at 50 or 60 Hz hangs on the mains`;
}

/** Which of how many: a low window shows one at a time. */
function titleRight(app: App): Line {
  const { length } = app.programs;
  const code = chosenProgram(app)?.code ?? "";
  return [span(length > 1 ? say`${here(app, "shaker").at + 1} of ${length}  ` : "", "dim"), span(code, "strong")];
}

export const SHAKER_KEYS: readonly Binding[] = [
  { keys: ["up", "-"], word: "program", help: "The program above.", does: (app) => move(app, -1) },
  { keys: ["down", "+"], word: "program", help: "The program below.", does: (app) => move(app, 1), quiet: true },
  {
    keys: ["r"],
    word: "other mains",
    help: "The program for the other mains frequency (50 or 60 Hz) at equal acceleration, and back.",
    does: restate,
    refusal: unrestatable,
  },
  { keys: ["escape", "enter"], word: "back", help: "Back to the bench.", does: (app) => step(leave(app)) },
];

/** How the programs of the library move a sieve, and how far that throws a grain. */
export const shakerRoom: Room = {
  title: (app) => ({ left: say`motion of the sieving programs`, right: titleRight(app) }),
  body: shakerBody,
  keys: () => SHAKER_KEYS,
  field: () => "none",
  typed: (app) => stay(app),
  erased: (app) => stay(app),
  scanned: (app) => stay(app),
  about: [
    "What a sieving program does to a grain: stroke (peak to peak), peak acceleration, throw number, and how long a grain",
    "flies. A program taken to the other mains frequency keeps its acceleration if its stroke is changed as shown here.",
  ],
};
