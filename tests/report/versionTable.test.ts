import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { currentTest } from "../../src/record/versions.ts";
import { amendmentText, correctionsText, standingText } from "../../src/report/amendmentWords.ts";
import { differingRows, fieldText, markedCell, versionRows } from "../../src/report/versionTable.ts";
import { corrected, plain } from "../screens/amending.ts";

const first = plain();
const second = corrected(first, [{ field: "fullG", apertureUm: 710, to: 493.2 }]);
const third = corrected(second, [{ field: "lot", to: "4472-A" }]);
const VERSIONS = [first, second, third].map(currentTest);
const row = (label: string, versions = VERSIONS) => versionRows(versions).find((one) => one.label === label);

describe("versions side by side", () => {
  test("show what was weighed and what follows, one column a version, and mark what differs from the one before", () => {
    expect(row("710 um full g")).toEqual({
      label: "710 um full g",
      cells: ["493.50", "493.20", "493.20"],
      differs: [false, true, false],
    });
    expect(row("lot")).toMatchObject({ cells: ["4471-B", "4471-B", "4472-A"], differs: [false, false, true] });
    expect(row("loss")).toMatchObject({ cells: ["0.10 %", "0.20 %", "0.20 %"], differs: [false, true, false] });
    expect(row("passing 710 um")?.differs).toEqual([false, true, false]);
    expect(row("test")?.cells[0]).toBe("TEST VALID ✓");
  });

  test("mark without colour, in columns that stay in line", () => {
    const full = row("710 um full g");
    if (full === undefined) throw new Error("no such row");
    expect([0, 1, 2].map((version) => markedCell(full, version))).toEqual(["  493.50", "* 493.20", "  493.20"]);
  });

  test("leave out what no version has, and have every weighing", () => {
    const labels = versionRows(VERSIONS).map(({ label }) => label);
    expect(labels).not.toContain("moist portion g");
    expect(labels.filter((label) => label.endsWith("full g"))).toHaveLength(6);
    expect(labels).toContain("pan empty g");
  });

  test("of one version differ in nothing; nothing of none", () => {
    expect(differingRows([currentTest(first)])).toEqual([]);
    expect(versionRows([])).toEqual([]);
  });

  test("mark a change however small the balance shows it, and no other weighing", () =>
    fc.assert(
      fc.property(fc.integer({ min: 39_000, max: 59_000 }), (hundredths) => {
        fc.pre(hundredths !== 49_350);
        const changed = corrected(first, [{ field: "fullG", apertureUm: 710, to: hundredths / 100 }]);
        const masses = differingRows([currentTest(first), currentTest(changed)]).filter(({ label }) =>
          label.endsWith(" g"),
        );
        expect(masses.map(({ label }) => label)).toEqual(["710 um full g"]);
      }),
      { numRuns: 30 },
    ));
});

test("a field is named with its sieve", () => {
  expect(fieldText({ field: "emptyG", apertureUm: 1400 })).toBe("1.40 mm empty g");
  expect(fieldText({ field: "samplingPoint" })).toBe("sampling point");
});

describe("words for what was said later", () => {
  test("say what, the number, when, by whom and why, and whether a PIN stands behind it", () => {
    const [later] = second.later;
    if (later === undefined) throw new Error("no correction");
    expect(amendmentText(later)).toBe("corrected  no. 20 · 2026-11-25 08:20 · ML: misread");
    expect(amendmentText({ ...later, signedOn: true })).toContain("ML with PIN: misread");
  });

  test.each([
    [undefined, ""],
    [{ corrections: 0, voided: false, waived: false }, ""],
    [{ corrections: 2, voided: false, waived: false }, "corrected"],
    [{ corrections: 1, voided: true, waived: false }, "VOID × corrected"],
    [{ corrections: 0, voided: false, waived: true }, "waived"],
  ])("%# are short in lists", (standing, words) => expect(standingText(standing)).toBe(words));

  test("count corrections", () => expect([1, 2].map(correctionsText)).toEqual(["corrected once", "corrected 2 times"]));
});
