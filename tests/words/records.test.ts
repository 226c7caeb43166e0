import { beforeAll, describe, expect, test } from "vitest";
import { eventForm } from "../../src/screens/event/eventRoom.ts";
import { type App, type Effect, enter } from "../../src/screens/place.ts";
import type { HoldOpened } from "../../src/shift/holds.ts";
import { mannerOf } from "../../src/words/manner.ts";
import { fetchLanguage } from "../../src/words/speaking.ts";
import { EMPTY_G, FULL_G } from "../run/hands.ts";
import { anApp, STATION, Stage } from "../screens/stage.ts";

const WEIGHED = { ...STATION, checkWeights: [{ weight: "W500", nominalG: 500, toleranceG: 0.03 }] };

const HOLD: HoldOpened = {
  kind: "hold opened",
  number: 8,
  at: "2026-11-24T03:00:00+01:00",
  day: "2026-11-23",
  station: "TH-DRY1",
  by: "KO",
  previous: "0".repeat(64),
  product: "TH-0510",
  lot: "4471-B",
  line: "Dryer 1",
  of: null,
  owner: "quality",
  reason: "fail: d50 801 is above 790",
};

/** Accepts a mass that is doubted. */
const entersAgain = (stage: Stage): Stage =>
  stage.app.place.name === "run" && stage.app.place.run.doubt ? stage.presses("enter") : stage;

/** What an operator does, by the same keys whatever the screens speak. */
const WORK: Readonly<Record<string, (app: App) => Stage>> = {
  "a test with doubts, taken back, cut short, and signed": (app) => {
    const stage = new Stage(app).types("n").presses("enter", "enter", "enter", "enter").enters("300,2");
    entersAgain(stage.enters("41,23")).types("u");
    for (const mass of EMPTY_G) entersAgain(stage.enters(String(mass)));
    stage.types("d").enters("8 min").types("s").enters("power went");
    for (const mass of FULL_G) entersAgain(stage.enters(String(mass)));
    return stage.types("r").enters("spilt some").presses("enter", "enter").enters("KO");
  },
  "a test ended without a result": (app) =>
    new Stage(app)
      .types("n")
      .presses("enter", "enter", "enter", "enter")
      .enters("300.2")
      .types("z")
      .enters("dropped")
      .enters("KO"),
  "a check of the balance": (app) => new Stage({ ...app, station: WEIGHED }).types("b").enters("500,2").enters("KO"),
  "a note": (app) => new Stage(app).presses("ctrl+n").enters("lid rattles").enters("KO"),
  "a hold closed": (app) =>
    new Stage(enter(app, eventForm("close", { is: "hold", hold: HOLD, against: null })))
      .enters("1")
      .enters("retested twice")
      .enters("KO"),
  "what happened on a line": (app) => new Stage(app).types("g").enters("1").enters("1").enters("gate 2").enters("KO"),
};

const RECORDS: readonly Effect["do"][] = ["save", "record", "recordCheck", "recordEvent", "endTest", "amend"];
const told = (stage: Stage) => stage.effects.filter(({ do: name }) => RECORDS.includes(name));

beforeAll(async () => {
  await fetchLanguage("de");
  await fetchLanguage("es");
});

describe.each(Object.keys(WORK))("%s", (name) => {
  const worked = (app: App) => told(WORK[name]?.(app) ?? new Stage());

  test.each(["de", "es"] as const)("is recorded word for word as in English where the screens speak %s", (language) => {
    const english = worked(anApp());
    expect(english.at(-1)?.do).not.toBe("save");
    expect(worked(anApp({ manner: mannerOf(STATION, language) }))).toEqual(english);
  });
});
