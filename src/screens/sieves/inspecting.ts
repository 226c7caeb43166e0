import { type InspectionFound, inspect } from "../../care/inspection/inspect.ts";
import { parseNumber } from "../../entry/quantityNumber.ts";
import { type Inspection, LOOKS, type Look } from "../../record/care.ts";
import type { Sieve } from "../../record/sieve.ts";
import { say } from "../../words/say.ts";
import { speaking } from "../../words/speaking.ts";
import { spoken } from "../../words/spoken.ts";
import { type App, enter, type Step, stay, step } from "../place.ts";
import { here } from "../room.ts";
import { initialsOf, initialsRefusal } from "../sign/initials.ts";
import type { InspectPlace, InspectStep } from "./places.ts";
import { isRecording, recording } from "./recording.ts";

const MOST_APERTURES = 2000;

export const inspectPlace = (app: App): InspectPlace => here(app, "inspect");
export const putInspect = (app: App, change: Partial<InspectPlace>): Step =>
  step({ ...app, message: null, place: { ...inspectPlace(app), ...change } });

/** Into a guided inspection of a sieve. */
export const toInspect = (app: App, sieve: Sieve): Step =>
  step(
    enter(app, {
      name: "inspect",
      sieve,
      step: "looks",
      looks: {},
      inCloth: null,
      warpUm: [],
      weftUm: [],
      instrument: "",
      note: "",
      typed: "",
    }),
  );

/** The look that is asked for; undefined once all were taken. */
export const lookInHand = ({ looks }: Pick<InspectPlace, "looks">): Look | undefined =>
  LOOKS.find((look) => looks[look] === undefined);

/** The inspection as it is to be recorded. */
export function inspectionOf(place: InspectPlace): Inspection {
  const { sieve, looks, warpUm, weftUm, inCloth, instrument, note } = place;
  const measured = {
    warpUm: [...warpUm],
    ...(weftUm.length === 0 ? {} : { weftUm: [...weftUm] }),
    ...(inCloth === null ? {} : { inCloth }),
    ...(instrument === "" ? {} : { instrument }),
  };
  return {
    did: "inspection",
    serial: sieve.serial,
    looks,
    ...(warpUm.length === 0 ? {} : { measured }),
    ...(note === "" ? {} : { note }),
  };
}

/** What the inspection finds as far as it has come. */
export const foundSoFar = (place: InspectPlace): InspectionFound => inspect(place.sieve, inspectionOf(place));

/** A look taken: on to the next one, after the last to the question whether apertures are measured. */
export function looked(app: App, found: "good" | "faulty"): Step {
  const place = inspectPlace(app);
  const look = lookInHand(place);
  if (look === undefined) return stay(app);
  const looks = { ...place.looks, [look]: found };
  return putInspect(app, { looks, step: lookInHand({ looks }) === undefined ? "whether" : "looks" });
}

/** Back to the look before; from the first one back to the sieve: undefined. */
export function lookedBack({ looks }: InspectPlace): InspectPlace["looks"] | undefined {
  const last = LOOKS.filter((look) => looks[look] !== undefined).at(-1);
  if (last === undefined) return undefined;
  const { [last]: _taken, ...rest } = looks;
  return rest;
}

const number = (typed: string) => parseNumber(typed, speaking().decimal);

function clothTaken(app: App, typed: string): Step {
  if (typed === "") return putInspect(app, { step: "warp", inCloth: null });
  const count = Number(typed);
  return Number.isInteger(count) && count > 0 && count < 1e9
    ? putInspect(app, { step: "warp", typed: "", inCloth: count })
    : stay(app, say`how many apertures the cloth has is a whole number; Enter alone if they were not counted`);
}

/** An aperture taken; with nothing typed on to what comes next. */
function apertureTaken(app: App, side: "warp" | "weft", typed: string): Step {
  const place = inspectPlace(app);
  const list = side === "warp" ? place.warpUm : place.weftUm;
  if (typed === "") {
    if (side === "weft") return putInspect(app, { step: "instrument", typed: place.instrument });
    return list.length === 0
      ? stay(app, say`no aperture yet: type one, or Esc back to judge by eye alone`)
      : putInspect(app, { step: "weft" });
  }
  const um = number(typed);
  if (!um.ok) return stay(app, spoken(um.reason));
  if (!(um.value > 0 && um.value <= 1e6)) return stay(app, say`an aperture is more than 0 um and at most 1 m`);
  if (list.length >= MOST_APERTURES) return stay(app, say`no more than ${MOST_APERTURES} apertures are kept`);
  const next = [...list, um.value];
  return putInspect(app, side === "warp" ? { warpUm: next, typed: "" } : { weftUm: next, typed: "" });
}

/** The last aperture of the direction in hand taken back. */
export function apertureBack(app: App): Step {
  const { step: at, warpUm, weftUm } = inspectPlace(app);
  const list = at === "warp" ? warpUm : weftUm;
  if (list.length === 0) return stay(app, say`nothing was taken along this direction yet`);
  const next = list.slice(0, -1);
  return putInspect(app, at === "warp" ? { warpUm: next } : { weftUm: next });
}

function signed(app: App, typed: string): Step {
  const by = initialsOf(app, typed);
  const refusal = initialsRefusal(app, by);
  if (refusal !== null) return stay(app, refusal);
  const entry = { kind: "care", by, care: inspectionOf(inspectPlace(app)) } as const;
  return recording(app, { do: "recordCare", entry });
}

function fileTaken(app: App, typed: string): Step {
  if (typed === "") return stay(app, say`name the file, or Esc to type the apertures`);
  return step({ ...app, message: say`reading ...` }, { do: "readApertures", path: typed });
}

/** Enter in each step that takes something typed. */
export function inspectTaken(app: App): Step {
  if (isRecording(app)) return stay(app, app.message);
  const { step: at, typed } = inspectPlace(app);
  const text = typed.trim();
  switch (at) {
    case "cloth":
      return clothTaken(app, text);
    case "warp":
    case "weft":
      return apertureTaken(app, at, text);
    case "file":
      return fileTaken(app, text);
    case "instrument":
      return putInspect(app, { instrument: text.slice(0, 80), step: "note", typed: inspectPlace(app).note });
    case "note":
      return putInspect(app, { note: text.slice(0, 400), step: "sign", typed: "" });
    case "sign":
      return signed(app, text);
    case "whether":
      return putInspect(app, { step: "note", typed: inspectPlace(app).note, warpUm: [], weftUm: [] });
    case "looks":
      return stay(app, say`say what you see: g good, f faulty`);
  }
}

/** Where Esc leads from each step but the looks. */
export function stepBefore({ step: at, warpUm }: InspectPlace): InspectStep {
  if (at === "note") return warpUm.length > 0 ? "instrument" : "whether";
  const before = { cloth: "whether", warp: "cloth", weft: "warp", file: "whether", instrument: "weft", sign: "note" };
  return (before as Partial<Record<InspectStep, InspectStep>>)[at] ?? "whether";
}
