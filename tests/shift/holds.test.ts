import { describe, expect, test } from "vitest";
import type { LogEntry } from "../../src/record/logEntry.ts";
import { holdOn, holdRefusal, holdsIn, openHolds } from "../../src/shift/holds.ts";

const sealed = (number: number) => ({
  number,
  at: "2026-11-25T03:00:00+01:00",
  day: "2026-11-25",
  station: "TH-DRY1",
  by: "KO",
  previous: "0".repeat(64),
});
const opened = (number: number, lot: string): LogEntry => ({
  kind: "hold opened",
  ...sealed(number),
  product: "TH-0510",
  lot,
  line: "Dryer 1",
  of: null,
  owner: "SB",
  reason: "d50 above its limit",
});
const closed = (number: number, hold: number, lot: string): LogEntry => ({
  kind: "hold closed",
  ...sealed(number),
  hold: { day: "2026-11-25", number: hold },
  product: "TH-0510",
  lot,
  disposition: "rework",
  reason: "screened again",
});
const note: LogEntry = { kind: "note", ...sealed(9), text: "nothing to do with it" };

describe("holds", () => {
  test("are open until a closing names them", () => {
    const entries = [opened(1, "A"), note, opened(2, "B"), closed(3, 1, "A")];
    expect(openHolds(entries).map(({ number }) => number)).toEqual([2]);
    expect(holdsIn(entries).map(({ opened: { number }, closed: end }) => [number, end?.number ?? null])).toEqual([
      [1, 3],
      [2, null],
    ]);
  });

  test("of one lot are told apart: closing the first leaves the second open", () => {
    expect(openHolds([opened(1, "A"), opened(2, "A"), closed(3, 1, "A")]).map(({ number }) => number)).toEqual([2]);
  });

  test("are found by product and lot", () => {
    const holds = openHolds([opened(1, "A")]);
    expect(holdOn(holds, "TH-0510", "A")?.number).toBe(1);
    expect(holdOn(holds, "TH-MAS", "A")).toBeNull();
    expect(holdOn(holds, "TH-0510", "B")).toBeNull();
  });
});

describe("a hold", () => {
  const open = opened(1, "A");
  test("can't be opened twice on a lot, nor closed when it isn't open", () => {
    expect(holdRefusal(opened(2, "A") as never, [open])).toBe("lot A of TH-0510 is on hold already, by entry 1");
    expect(holdRefusal(opened(2, "B") as never, [open])).toBeNull();
    expect(holdRefusal(closed(2, 1, "A") as never, [open])).toBeNull();
    expect(holdRefusal(closed(3, 1, "A") as never, [open, closed(2, 1, "A")])).toBe(
      "there is no open hold no. 1 of 2026-11-25",
    );
    expect(holdRefusal(closed(2, 1, "B") as never, [open])).toBe(
      "hold no. 1 is on lot A of TH-0510, not on lot B of TH-0510",
    );
  });
});
