import { describe, expect, test } from "vitest";
import type { Role } from "../../src/record/roles.ts";
import type { Place } from "../../src/screens/place.ts";
import type { HoldOpened } from "../../src/shift/holds.ts";
import { anApp, Stage } from "./stage.ts";

const place: Place = { name: "lot", product: "TH-0510", lot: "4471-B", line: "Dryer 1", histories: [], at: 0 };
const HOLD: HoldOpened = {
  kind: "hold opened",
  number: 4,
  at: "2026-11-24T03:00:00+01:00",
  day: "2026-11-23",
  station: "TH-DRY1",
  by: "KO",
  previous: "0".repeat(64),
  product: "TH-0510",
  lot: "4471-B",
  line: "Dryer 1",
  owner: "ML",
  reason: "fails at 710 um",
  of: null,
};
const closes = (role: Role) =>
  new Stage(anApp({ place, holds: [HOLD], session: { initials: "KO", name: "K. Orr", role } })).types("c");

describe("closing a hold from the page of its lot", () => {
  test("is refused at once for a role that may not, before a form is filled in vain", () => {
    const stage = closes("operator");
    expect(stage.app.place.name).toBe("lot");
    expect(stage.app.message).toContain("quality");
  });

  test("opens the form for somebody of quality", () => {
    expect(closes("quality").app.place.name).toBe("event");
  });
});
