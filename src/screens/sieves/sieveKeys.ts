import { say } from "../../words/say.ts";
import { type App, leave, type Step, stay, step } from "../place.ts";
import { type Binding, here } from "../room.ts";
import { careOf } from "./careForms.ts";
import { toInspect } from "./inspecting.ts";
import { careRefusal, registerRefusal } from "./may.ts";
import { type CARE_FORMS, SIEVE_PAGES, type SievePlace } from "./places.ts";
import { toForm } from "./reach.ts";
import { shownOf } from "./shown.ts";
import { sievePlace as placeOf } from "./sievePages.ts";

/** Another page; what is worked out for it is begun when it is first looked at. */
function turned(app: App, by: number): Step {
  const place = here(app, "sieve");
  const at = (SIEVE_PAGES.indexOf(place.page) + by + SIEVE_PAGES.length) % SIEVE_PAGES.length;
  const page = SIEVE_PAGES[at] ?? "sieve";
  const asks = page === "effective" && place.effective === null;
  const next: SievePlace = { ...place, page, effective: asks ? "working" : place.effective };
  const there: App = { ...app, message: null, place: next };
  return asks ? step(there, { do: "readEffective", serial: place.serial }) : step(there);
}

type CareDid = (typeof CARE_FORMS)[number];

function doing(did: CareDid) {
  return {
    does: (app: App): Step => {
      const { known, serial } = placeOf(app);
      return known === null
        ? stay(app, say`still reading: one moment`)
        : toForm(app, { form: did, serial, before: null, known });
    },
    refusal: (app: App): string | null =>
      careRefusal(
        app,
        careOf(did, [placeOf(app).serial], () => ""),
      ),
  };
}

function edit(app: App): Step {
  const { known, serial } = placeOf(app);
  const shown = shownOf(placeOf(app));
  if (known === null || shown === null) return stay(app, say`still reading: one moment`);
  return toForm(app, { form: "sieve", serial, before: shown.sieve, known });
}

function inspect(app: App): Step {
  const shown = shownOf(placeOf(app));
  return shown === null ? stay(app, say`still reading: one moment`) : toInspect(app, shown.sieve);
}

const VIEW: Binding = {
  keys: ["v", "right"],
  word: "view",
  help: "The next page: state, life, empty masses over time, effective aperture from routine tests, and by reference materials.",
  does: (app) => turned(app, 1),
};
const CLEAN: Binding = {
  keys: ["c"],
  word: "clean",
  help: "Note a cleaning, how, and the empty mass weighed afterwards; several sieves at once by their set.",
  ...doing("cleaning"),
};
const INSPECT: Binding = {
  keys: ["i"],
  word: "inspect",
  help: "A guided inspection: one look after another, then measured apertures.",
  does: inspect,
  refusal: (app) => careRefusal(app, { did: "inspection", serial: placeOf(app).serial, looks: {} }),
};
const QUARANTINE: Binding = {
  keys: ["q"],
  word: "quarantine",
  help: "Take the sieve out of service until it is looked into, with a reason.",
  ...doing("quarantine"),
};
const RETURN: Binding = {
  keys: ["r"],
  word: "return",
  help: "Return the sieve to service, with a reason; its empty masses begin anew.",
  ...doing("return to service"),
};
const MEND: Binding = {
  keys: ["m"],
  word: "mend",
  help: "Note a repair; the empty masses of the sieve begin anew.",
  ...doing("repair"),
};
const RETIRE: Binding = {
  keys: ["x"],
  word: "retire",
  help: "Retire the sieve for good, with a reason; its record stays.",
  ...doing("retirement"),
};
const EDIT: Binding = {
  keys: ["e"],
  word: "edit",
  help: "Change what the register says of the sieve, with a reason.",
  does: edit,
  refusal: registerRefusal,
};
const BACK: Binding = {
  keys: ["escape"],
  word: "back",
  help: "Back to where you came from.",
  does: (app) => step(leave(app)),
};
const MOVING: readonly Binding[] = [
  { keys: ["left"], word: "view", help: "The page before.", does: (app) => turned(app, -1), quiet: true },
];

/** Out of service by its own condition, not by the register: it can be set aside as well. */
const FAULTY: readonly Binding[] = [VIEW, RETURN, CLEAN, INSPECT, MEND, RETIRE, BACK, QUARANTINE, EDIT, ...MOVING];

/** What can be done with a sieve, by how it stands. */
export const SIEVE_KEYS = {
  "in service": [VIEW, CLEAN, INSPECT, QUARANTINE, MEND, RETIRE, BACK, EDIT, ...MOVING],
  "out of service": [VIEW, RETURN, CLEAN, INSPECT, MEND, RETIRE, BACK, EDIT, ...MOVING],
  retired: [VIEW, RETURN, EDIT, BACK, ...MOVING],
} as const satisfies Record<string, readonly Binding[]>;

/** What can be done depends on whether the sieve is in service. */
export function sieveKeys(app: App): readonly Binding[] {
  const registered = shownOf(placeOf(app))?.condition;
  const isFaulty = registered?.state === "out of service" && registered.registered === "in service";
  if (registered === undefined) return [BACK];
  if (registered.registered === "retired") return SIEVE_KEYS.retired;
  if (registered.registered !== "in service" || isFaulty) return isFaulty ? FAULTY : SIEVE_KEYS["out of service"];
  return SIEVE_KEYS["in service"];
}
