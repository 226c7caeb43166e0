import { describe, expect, test } from "vitest";
import { judgeDirection } from "../../src/care/inspection/direction.ts";
import { apertureLimits } from "../../src/care/inspection/limits.ts";
import type { Care } from "../../src/record/care.ts";
import type { CareEntry, RegisteredEntry } from "../../src/record/logEntry.ts";
import {
  certificateWords,
  conditionWord,
  directionFigures,
  dueWords,
  lifeWords,
  tallyWords,
  tareOffWords,
  withoutName,
} from "../../src/report/sieveWords.ts";
import { sieveOf } from "../care/knownWorld.ts";

const SIEVE = sieveOf("S-0710-1", 710);
const sealed = {
  number: 7,
  at: "2026-11-24T09:00:00+01:00",
  day: "2026-11-24",
  station: "TH-DRY1",
  by: "KO",
  previous: "0".repeat(64),
};
const cared = (care: Care): string => lifeWords({ kind: "care", ...sealed, care } as CareEntry, SIEVE, 0.01);

describe("the state of a sieve", () => {
  test.each([
    ["fit", "in service", "fit ✓"],
    ["due", "in service", "due ~"],
    ["overdue", "in service", "OVERDUE !"],
    ["out of service", "in service", "FAULTY ✗"],
    ["out of service", "quarantine", "QUARANTINE ✗"],
    ["out of service", "retired", "retired –"],
    ["out of service", "cleaning", "cleaning –"],
  ] as const)("%s, registered as %s, reads %j", (state, registered, word) =>
    expect(conditionWord({ state, registered })).toBe(word),
  );

  test("how far its empty mass is off has a sign, but 0 has none", () => {
    const off = (offG: number | null) =>
      tareOffWords(
        {
          tare: {
            serial: "S",
            apertureUm: 1,
            state: "steady",
            levelG: 1,
            toldFromG: 1,
            offG,
            since: null,
            text: "",
            advice: null,
          },
        },
        0.01,
      );
    expect([off(0.12), off(-0.3), off(-0.001), off(0), off(null)]).toEqual([
      "+0.12 g",
      "-0.30 g",
      "0.00 g",
      "0.00 g",
      "–",
    ]);
    expect(tareOffWords({ tare: null }, 0.01)).toBe("–");
  });

  test("is due on a day, or told by the count that brings it on", () => {
    const due = { state: "not due", onDay: "2027-05-03", text: "" } as const;
    const tests = { by: "tests", used: 39.4, limit: 40 } as const;
    expect(dueWords({ due: { ...due, first: { by: "days", used: 3, limit: 183 } } })).toBe("2027-05-03");
    expect(dueWords({ due: { ...due, first: tests } })).toBe("2027-05-03");
    expect(dueWords({ due: { ...due, state: "due", first: tests } })).toBe("39/40 tests");
    expect(dueWords({ due: { ...due, onDay: null, first: { ...tests, by: "passedKg" } } })).toBe("39/40 kg");
    expect(dueWords({ due: { ...due, onDay: null, first: null } })).toBe("–");
  });
});

test("use is told in tests, minutes and kg, and how many tests have no known time", () => {
  expect(tallyWords({ tests: 40, sievedMin: 399.6, passedKg: 12.34, untimed: 0 })).toBe(
    "40 tests, 400 min, 12.3 kg passed",
  );
  expect(tallyWords({ tests: 2, sievedMin: 10, passedKg: 0, untimed: 1 })).toContain(
    "10 min (1 tests without a known time)",
  );
});

test("a certificate is told with what it gives and no more", () => {
  const bare = { day: "2026-08-01", laboratory: "a laboratory", warp: { meanUm: 712.84 } };
  expect(certificateWords(bare)).toBe("of 2026-08-01, a laboratory; warp mean 712.8 um");
  const full = {
    ...bare,
    number: "7",
    warp: { meanUm: 712.8, deviationUm: 7.1, factorK: 2.3, measured: 30 },
    weft: { meanUm: 708 },
    expandedUm: 2,
  };
  expect(certificateWords(full)).toBe(
    "no. 7 of 2026-08-01, a laboratory; warp mean 712.8 um s 7.1 um k 2.3 of 30; weft mean 708.0 um; U 2.0 um (k = 2)",
  );
});

test("figures of a measured direction, with the sign of the offset and none at 0", () => {
  const limits = apertureLimits(710, "woven wire");
  if ("reason" in limits) throw new Error(limits.reason);
  expect(directionFigures(judgeDirection("warp", [700, 720], 710, limits), 710)).toEqual({
    mean: "710.0",
    off: "0.0",
    deviation: "14.1",
    largest: "720.0",
    aboveZ: "0 % above Z along the warp",
  });
  expect(directionFigures(judgeDirection("weft", [702.5], 710, null), 710)).toEqual({
    mean: "702.5",
    off: "-7.5",
    deviation: "–",
    largest: "702.5",
    aboveZ: "",
  });
});

describe("an entry in the life of a sieve", () => {
  test("a cleaning tells its own empty mass and nobody else's", () => {
    const after = [{ serial: "S-1000-1", emptyG: 300 }];
    expect(cared({ did: "cleaning", serials: ["S-0710-1", "S-1000-1"], how: "brush", after })).toBe(
      "cleaned: brush, not weighed afterwards",
    );
  });

  test("an inspection tells its result, not the looks", () => {
    expect(cared({ did: "inspection", serial: "S-0710-1", looks: {}, note: "in haste" })).toMatch(
      /^inspected, incomplete: not looked at: light; .* \(in haste\)$/,
    );
    const good = { light: "good", wrinkles: "good", tears: "good", solder: "good", seat: "good" } as const;
    expect(cared({ did: "inspection", serial: "S-0710-1", looks: good })).toBe("inspected: fit");
    expect(cared({ did: "inspection", serial: "S-0710-1", looks: { ...good, seat: "faulty" } })).toBe(
      "inspected: NOT FIT: the frame does not seat",
    );
  });

  test("a reference check tells what it says of this sieve", () => {
    const material = {
      schema: "sievewright.referenceMaterial/1" as const,
      code: "RM-1",
      name: "sand",
      certificate: { day: "2026-01-01", laboratory: "a laboratory" },
      points: [
        { apertureUm: 1000, passingPct: 80, expandedPct: 1 },
        { apertureUm: 500, passingPct: 20, expandedPct: 1 },
      ],
    };
    const found = [{ apertureUm: 710, serial: "S-0710-1", passingPct: 50.5, expandedPct: 1 }];
    expect(cared({ did: "reference check", material, found })).toMatch(
      /^run with RM-1: the 710 um sieve \(S-0710-1\) agrees/,
    );
    expect(cared({ did: "reference check", material, found: [{ apertureUm: 710, passingPct: 50 }] })).toBe(
      "run with RM-1: not judged",
    );
  });

  test("a registration, and a later one with its reason", () => {
    const entry = { kind: "registered", ...sealed, item: SIEVE } as RegisteredEntry;
    expect(lifeWords(entry, SIEVE, 0.01)).toBe("registered");
    expect(lifeWords({ ...entry, reason: "measured" }, SIEVE, 0.01)).toBe("registered anew: measured");
  });
});

test("a fault without the name of its sieve", () => {
  expect(withoutName("the 710 um sieve (S-0710-1): the cloth is torn")).toBe("the cloth is torn");
  expect(withoutName("not looked at: light")).toBe("not looked at: light");
});
