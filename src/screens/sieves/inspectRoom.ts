import { apertureText } from "../../report/figures.ts";
import { say } from "../../words/say.ts";
import { span } from "../line.ts";
import { type App, leave, type Step, stay, step } from "../place.ts";
import type { Binding, Field, Room } from "../room.ts";
import { apertureBack, inspectPlace, inspectTaken, looked, lookedBack, putInspect, stepBefore } from "./inspecting.ts";
import { inspectBody } from "./inspectView.ts";
import { careRefusal } from "./may.ts";
import { nameShown } from "./names.ts";
import type { InspectStep } from "./places.ts";

const LONGEST = 400;

/** To the question before; from the first look back to the sieve, recording nothing. */
function back(app: App): Step {
  const place = inspectPlace(app);
  if (place.step !== "looks" && place.step !== "whether")
    return putInspect(app, { step: stepBefore(place), typed: "" });
  const looks = lookedBack(place);
  return looks === undefined ? step(leave(app)) : putInspect(app, { looks, step: "looks" });
}

const measuring = (app: App): string | null =>
  careRefusal(app, {
    did: "inspection",
    serial: inspectPlace(app).sieve.serial,
    looks: {},
    measured: { warpUm: [inspectPlace(app).sieve.apertureUm] },
  });

const ACCEPT: Binding = {
  keys: ["enter"],
  word: "accept",
  help: "Take what is typed and go on; the last one signs.",
  does: inspectTaken,
};
const BACK: Binding = {
  keys: ["escape"],
  word: "back",
  help: "To the question before; from the first one back, recording nothing.",
  does: back,
};
const UNDO: Binding = {
  keys: ["u"],
  word: "undo",
  help: "Take the last aperture of this direction back.",
  does: apertureBack,
};
const IMPORT: Binding = {
  keys: ["i"],
  word: "import",
  help: "Take the apertures from a CSV file: header warp_um,weft_um, one aperture a cell in um.",
  does: (app) => putInspect(app, { step: "file", typed: "" }),
  refusal: measuring,
};
const MEASURE: Binding = {
  keys: ["m"],
  word: "measure",
  help: "Type measured apertures, along the warp, then along the weft.",
  does: (app) => putInspect(app, { step: "cloth", typed: "" }),
  refusal: measuring,
};
const LOOKED: readonly Binding[] = [
  { keys: ["g", "1"], word: "good", help: "Nothing amiss: on to the next look.", does: (app) => looked(app, "good") },
  {
    keys: ["f", "2"],
    word: "faulty",
    help: "Something is amiss: on to the next look.",
    does: (app) => looked(app, "faulty"),
  },
];

export const inspectKeys = (step: InspectStep): readonly Binding[] => {
  switch (step) {
    case "looks":
      return [...LOOKED, BACK];
    case "whether":
      return [ACCEPT, MEASURE, IMPORT, BACK];
    case "warp":
    case "weft":
      return [ACCEPT, UNDO, IMPORT, BACK];
    default:
      return [ACCEPT, BACK];
  }
};

const FIELDS: Readonly<Record<string, Field>> = {
  looks: "none",
  whether: "none",
  cloth: "number",
  warp: "number",
  weft: "number",
};
const fieldOf = (app: App): Field => FIELDS[inspectPlace(app).step] ?? "text";

const retyped = (app: App, change: (typed: string) => string): Step =>
  fieldOf(app) === "none" ? stay(app) : putInspect(app, { typed: change(inspectPlace(app).typed).slice(0, LONGEST) });

/** A guided inspection: one look after another, then measured apertures, the result, who signs. */
export const inspectRoom: Room = {
  title: (app) => {
    const { sieve } = inspectPlace(app);
    return {
      left: say`inspection of ${sieve.serial} · ${apertureText(sieve.apertureUm)} ${nameShown(sieve.cloth ?? "woven wire")}`,
      right: [span(say`nothing is recorded before it is signed`, "dim")],
    };
  },
  body: inspectBody,
  keys: (app) => inspectKeys(inspectPlace(app).step),
  field: fieldOf,
  typed: (app, text) => retyped(app, (old) => old + text),
  erased: (app) => retyped(app, (old) => old.slice(0, -1)),
  scanned: (app, text, ended) => {
    const typing = retyped(app, (old) => old + text);
    return ended && fieldOf(app) !== "none" ? inspectTaken(typing.app) : typing;
  },
  about: [
    "One look after another: g good, f faulty. Then, where it is wanted, apertures measured along the warp and the weft, typed or from a CSV file (header warp_um,weft_um).",
    "The mean is judged against Y and the largest aperture against X of the sieve series, each along its direction; whether these figures are tabulated or computed, seen or recalled, stands beside them: the edition of the standard in force decides.",
    "The result is told before it is signed, and goes to the care log.",
    "Wire ends are sharp. Look at the cloth with dust brushed off and out of the breath's way.",
  ],
};
