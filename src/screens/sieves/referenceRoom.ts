import type { CareKnown } from "../../care/known.ts";
import type { Care } from "../../record/care.ts";
import { say } from "../../words/say.ts";
import { span } from "../line.ts";
import { moved } from "../list.ts";
import { type App, enter, leave, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { initialsOf, initialsRefusal } from "../sign/initials.ts";
import { typingBy } from "../typing.ts";
import { careRefusal } from "./may.ts";
import type { ReferencePlace } from "./places.ts";
import { isRecording, recording } from "./recording.ts";
import { materialsHere, referenceBody, testsHere } from "./referenceView.ts";

const placeOf = (app: App): ReferencePlace => here(app, "reference");
const put = (app: App, change: Partial<ReferencePlace>): Step =>
  step({ ...app, message: null, place: { ...placeOf(app), ...change } });

/** Into the check by a reference material. */
export const toReference = (app: App, known: CareKnown): Step =>
  step(
    enter(app, {
      name: "reference",
      known,
      step: "material",
      material: null,
      rows: null,
      check: null,
      filter: "",
      at: 0,
      typed: "",
    }),
    { do: "readReferenceRows" },
  );

function signed(app: App, check: Care): Step {
  const by = initialsOf(app, placeOf(app).typed);
  const refusal = initialsRefusal(app, by) ?? careRefusal(app, check);
  if (refusal !== null) return stay(app, refusal);
  return recording(app, { do: "recordCare", entry: { kind: "care", by, care: check } });
}

function taken(app: App): Step {
  if (isRecording(app)) return stay(app, app.message);
  const place = placeOf(app);
  if (place.step === "material") {
    const material = materialsHere(place)[place.at];
    return material ? put(app, { step: "test", material, filter: "", at: 0 }) : stay(app, say`nothing matches`);
  }
  if (place.step === "result" && place.check !== null) return signed(app, place.check);
  const row = testsHere(place)[place.at];
  if (row === undefined || place.material === null) return stay(app, say`nothing matches`);
  return step({ ...app, message: say`reading ...` }, { do: "readReference", row, material: place.material });
}

function back(app: App): Step {
  const place = placeOf(app);
  if (place.step !== "result" && place.filter !== "") return put(app, { filter: "", at: 0 });
  if (place.step === "material") return step(leave(app));
  return put(app, { step: place.step === "result" ? "test" : "material", check: null, filter: "", at: 0, typed: "" });
}

function move(app: App, by: number): Step {
  const place = placeOf(app);
  const { length } = place.step === "material" ? materialsHere(place) : testsHere(place);
  return put(app, moved(place, by, length));
}

const ACCEPT: Binding = {
  keys: ["enter"],
  word: "accept",
  help: "Take the material, then the test; on the result sign: it is recorded.",
  does: taken,
};
const MOVING: readonly Binding[] = [
  { keys: ["up"], word: "row", help: "The mark one row up.", does: (app) => move(app, -1) },
  { keys: ["down"], word: "row", help: "The mark one row down.", does: (app) => move(app, 1), quiet: true },
];
const BACK: Binding = {
  keys: ["escape"],
  word: "back",
  help: "To the question before; from the first one back to the list, recording nothing.",
  does: back,
};

export const REFERENCE_KEYS = {
  choosing: [ACCEPT, ...MOVING, BACK],
  signing: [ACCEPT, BACK],
} as const satisfies Record<string, readonly Binding[]>;

const LONGEST = 60;

function retyped(app: App, change: (typed: string) => string): Step {
  const place = placeOf(app);
  return place.step === "result"
    ? put(app, { typed: change(place.typed).slice(0, 8) })
    : put(app, { filter: change(place.filter).slice(0, LONGEST), at: 0 });
}

/** A certified material run like a test: what it says of each sieve. */
export const referenceRoom: Room = {
  title: (app) => {
    const { material } = placeOf(app);
    return {
      left: material === null ? say`check by a reference material` : say`check by ${material.code} · ${material.name}`,
      right: [span(say`nothing is recorded before it is signed`, "dim")],
    };
  },
  body: referenceBody,
  keys: (app) => REFERENCE_KEYS[placeOf(app).step === "result" ? "signing" : "choosing"],
  field: () => "text",
  ...typingBy(retyped, taken),
  about: [
    "A certified material, weighed out and sieved like any test, then chosen here from the log.",
    "Each sieve is judged by the En number (its difference from the certificate over the expanded uncertainty of both) and the z score (over the spread that laboratories have), and gets an effective aperture: the size at which the certified curve passes as much.",
    "The uncertainty of what was found is that of the test's own budget. What is signed joins the life of each sieve whose serial the test tells.",
  ],
};
