import { describe, expect, test } from "vitest";
import { eventForm } from "../../src/screens/event/eventRoom.ts";
import { optionOf } from "../../src/screens/event/forms.ts";
import { type App, type EventPlace, enter } from "../../src/screens/place.ts";
import type { HoldOpened } from "../../src/shift/holds.ts";
import { anApp, Stage } from "./stage.ts";

const form = (name: EventPlace["form"], about?: EventPlace["about"], app: Partial<App> = {}) =>
  new Stage(enter(anApp(app), eventForm(name, about)));
const asked = (stage: Stage) => stage.effects.flatMap((effect) => (effect.do === "recordEvent" ? [effect.entry] : []));

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

describe("a note", () => {
  test("is opened from any place by Ctrl+N and ends in an entry with whoever signs", () => {
    const stage = new Stage().types("p").presses("ctrl+n");
    expect(stage.app.place.name).toBe("event");
    stage.enters("lid rattles").enters("");
    expect(asked(stage)).toEqual([{ kind: "note", by: "KO", text: "lid rattles" }]);
  });

  test("needs no initials from whoever is signed on", () => {
    const session = { initials: "SB", name: "S. Baro", role: "operator" } as const;
    const stage = form("note", undefined, { session: session as never }).enters("lid rattles");
    expect(asked(stage)).toEqual([{ kind: "note", by: "SB", text: "lid rattles" }]);
  });

  test("without words is not taken, and Esc gives back what was answered before it leaves", () => {
    const stage = form("note").enters("ok");
    expect(stage.app.message).toBe("say it in words");
    stage.types(" now").presses("enter", "escape");
    expect(stage.screen()).toContain("ok now▌");
    stage.presses("escape");
    expect(stage.app.place.name).toBe("bench");
    expect(asked(stage)).toEqual([]);
  });

  test("is refused where nothing can be recorded", () => {
    const stage = new Stage(anApp({ readOnly: "another Sievewright has this station" })).presses("ctrl+n");
    expect(stage.app.place.name).toBe("bench");
    expect(stage.app.message).toContain("another Sievewright");
  });
});

describe("what happened on a line", () => {
  test("is told by options, by number or first letters, and in words", () => {
    const stage = new Stage().types("g").enters("2").enters("dry").enters("from 160 to 150 C").enters("ML");
    expect(stage.app.message).toContain("ML is not known");
    stage.presses("enter");
    const entry = { kind: "line adjusted", by: "ML", line: "Screen deck B", what: "dryer temperature" };
    expect(asked(stage)).toEqual([{ ...entry, detail: "from 160 to 150 C" }]);
  });

  test("a new lot names product and lot; a changeover the product alone; a stop neither", () => {
    const lot = new Stage().types("g").enters("1").enters("new").enters("1").enters("4472-A").enters("").enters("");
    expect(asked(lot)[0]).toMatchObject({ what: "new lot", product: "TH-0510", lot: "4472-A", detail: "" });
    const over = new Stage().types("g").enters("1").enters("change").enters("2").enters("").enters("");
    expect(asked(over)[0]).toMatchObject({ what: "changeover", product: "TH-BAR" });
    expect(asked(over)[0]).not.toHaveProperty("lot");
    const stopped = new Stage().types("g").enters("1").enters("stopped").enters("belt torn").enters("");
    expect(asked(stopped)[0]).toEqual({
      kind: "line adjusted",
      by: "KO",
      line: "Dryer 1",
      what: "stopped",
      detail: "belt torn",
    });
  });

  test("an option that there isn't is not taken", () => {
    const stage = new Stage().types("g").enters("9");
    expect(stage.app.message).toBe("choose by number, or by the first letters");
    expect(stage.screen()).toContain("1  Dryer 1");
  });

  test.each([
    ["2", "feed rate"],
    ["FEED", "feed rate"],
    ["0", null],
    ["", null],
    ["x", null],
  ])("typed %j stands for %j", (typed, option) => {
    expect(optionOf(["deck", "feed rate"], typed)).toBe(option);
  });
});

describe("a hold", () => {
  test("is opened with who decides and why", () => {
    const about = { is: "lot", product: "TH-0510", lot: "4471-B", line: "Dryer 1", of: null } as const;
    const stage = form("hold", about).enters("").enters("wet spots in the pile").enters("");
    expect(asked(stage)).toEqual([
      {
        kind: "hold opened",
        by: "KO",
        product: "TH-0510",
        lot: "4471-B",
        line: "Dryer 1",
        of: null,
        owner: "quality",
        reason: "wet spots in the pile",
      },
    ]);
  });

  test("is closed by what becomes of the lot; neither hold nor resample closes it", () => {
    const stage = form("close", { is: "hold", hold: HOLD, against: null });
    expect(stage.screen()).not.toMatch(/\d {2}(hold|resample)/);
    stage.enters("rework").enters("screened again").enters("");
    expect(asked(stage)[0]).toMatchObject({
      kind: "hold closed",
      hold: { day: "2026-11-23", number: 8 },
      lot: "4471-B",
      disposition: "rework",
      reason: "screened again",
    });
  });
});

describe("a handover", () => {
  const about = {
    is: "handover",
    shift: { name: "night", began: "2026-11-23T22:00:00+01:00", ends: "2026-11-24T06:00:00+01:00" },
    head: { number: 9, seal: "a".repeat(64) },
    page: "HANDOVER\n",
  } as const;

  test("carries the SHA-256 of the page, and the page to keep", () => {
    const stage = form("handover", about).enters("").enters("");
    expect(asked(stage)[0]).toMatchObject({
      kind: "handover",
      head: { number: 9 },
      pageSha256: "74e8ed13874449edfb9693cfed486ed374a71b2dbb0d58309d5127ebc2e81ee4",
      remark: "",
    });
    expect(stage.effects.find((effect) => effect.do === "recordEvent")).toMatchObject({ page: "HANDOVER\n" });
  });

  test("is taken with an Enter by whoever is signed on, never by itself", () => {
    const session = { initials: "SB", name: "S. Baro", role: "operator" } as const;
    const stage = form(
      "taken",
      { is: "handed over", handover: { day: "2026-11-24", number: 9 } },
      {
        session: session as never,
      },
    );
    expect(asked(stage)).toEqual([]);
    stage.presses("enter");
    expect(asked(stage)).toEqual([{ kind: "handover taken", by: "SB", handover: { day: "2026-11-24", number: 9 } }]);
  });
});
