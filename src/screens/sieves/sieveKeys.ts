import { say } from "../../words/say.ts";
import { type App, leave, type Step, stay, step } from "../place.ts";
import { type Binding, here } from "../room.ts";
import { careOf } from "./careForms.ts";
import { toInspect } from "./inspecting.ts";
import { careRefusal, registerRefusal } from "./may.ts";
import { type CARE_FORMS, SIEVE_PAGES, type SievePlace } from "./places.ts";
import { toForm } from "./reach.ts";
import { shownOf } from "./shown.ts";
import { linesOf, sievePlace as placeOf } from "./sievePages.ts";

/** Another page; what is worked out for it is begun when it is first looked at. */
function turned(app: App, by: number): Step {
  const place = here(app, "sieve");
  const at = (SIEVE_PAGES.indexOf(place.page) + by + SIEVE_PAGES.length) % SIEVE_PAGES.length;
  const page = SIEVE_PAGES[at] ?? "sieve";
  const asks = page === "effective" && place.effective === null;
  const next: SievePlace = { ...place, page, from: 0, effective: asks ? "working" : place.effective };
  const there: App = { ...app, message: null, place: next };
  return asks ? step(there, { do: "readEffective", serial: place.serial }) : step(there);
}

const LOWEST_ROWS = 16;

function moved(app: App, by: number): Step {
  const place = placeOf(app);
  const most = Math.max(0, linesOf(place, { columns: 80, rows: LOWEST_ROWS }).length - 1);
  return step({
    ...app,
    message: null,
    place: { ...here(app, "sieve"), from: Math.max(0, Math.min(most, place.from + by)) },
  });
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
  help: "The next page: state, life, empty masses over time, effective aperture from routine tests.",
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
  { keys: ["up", "-"], word: "scroll", help: "A line up.", does: (app) => moved(app, -1), quiet: true },
  { keys: ["down", "+"], word: "scroll", help: "A line down.", does: (app) => moved(app, 1), quiet: true },
];

/** What can be done depends on whether the sieve is in service. */
export function sieveKeys(app: App): readonly Binding[] {
  const registered = shownOf(placeOf(app))?.condition;
  const isFaulty = registered?.state === "out of service" && registered.registered === "in service";
  if (registered === undefined) return [BACK];
  if (registered.registered === "retired") return [VIEW, RETURN, EDIT, BACK, ...MOVING];
  if (registered.registered !== "in service" || isFaulty)
    return [VIEW, RETURN, CLEAN, INSPECT, MEND, RETIRE, BACK, ...(isFaulty ? [QUARANTINE] : []), EDIT, ...MOVING];
  return [VIEW, CLEAN, INSPECT, QUARANTINE, MEND, RETIRE, BACK, EDIT, ...MOVING];
}
