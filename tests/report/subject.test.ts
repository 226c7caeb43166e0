import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CHARACTERISTIC_VALUES } from "../../src/grading/values/table.ts";
import { VALUE_IDS } from "../../src/record/valueIds.ts";
import { type Subject, subjectNamed } from "../../src/report/subject.ts";
import { TOPICS } from "../../src/report/topics.ts";

function subject(name: string): Subject {
  const found = subjectNamed(name);
  if (!found.ok) throw new Error(found.reason);
  return found.value;
}

function idOf(name: string): string {
  const found = subject(name);
  if (found.kind !== "value") throw new Error(`${name} is a ${found.kind}`);
  return found.row.id;
}

function reasonFor(name: string): string {
  const found = subjectNamed(name);
  if (found.ok) throw new Error(`${name} is known`);
  return found.reason;
}

/** A name as somebody might spell it: other case, spaces or hyphens for what joins the words. */
const spelled = (text: string, how: readonly boolean[]): string =>
  [...text]
    .map((letter, i) => (how[i % how.length] ? letter.toUpperCase() : letter.toLowerCase()))
    .join("")
    .replaceAll(" ", how[0] ? "-" : " ");

describe("a value is meant by", () => {
  test("its id and its label, in any spelling", () =>
    fc.assert(
      fc.property(
        fc.constantFrom(...CHARACTERISTIC_VALUES),
        fc.array(fc.boolean(), { minLength: 1, maxLength: 8 }),
        ({ id, label }, how) => {
          expect(idOf(spelled(id, how))).toBe(id);
          expect(idOf(spelled(label, how))).toBe(id);
          expect(idOf(`  ${label} `)).toBe(id);
        },
      ),
    ));

  test.each([
    ["FM", "finenessModulus"],
    ["GFN", "grainFinenessNumber"],
    ["SGN", "sizeGuideNumber"],
    ["UI", "uniformityIndex"],
    ["RS", "relativeSpan"],
  ])("%s, the initials of its id", (name, id) => expect(idOf(name)).toBe(id));

  test.each([
    ["Cu", "uniformityCoefficient"],
    ["Cc", "curvatureCoefficient"],
    ["Sgw", "geometricStandardDeviation"],
    ["dgw", "geometricMeanDiameterUm"],
    ["Mz", "phiGraphicMean"],
    ["D[3,2]", "sauterMeanDiameterUm"],
  ])("%s, a word of its label", (name, id) => expect(idOf(name)).toBe(id));

  test.each([
    ["fineness mod", "finenessModulus"],
    ["hazen", null],
    ["particles", "particlesPerG"],
    ["surfaceM2", "specificSurfaceM2PerKg"],
  ])("%s: a part that no other value has", (name, id) =>
    id === null
      ? expect(reasonFor(name)).toBe(`"${name}" is no value, no topic and no term`)
      : expect(idOf(name)).toBe(id),
  );

  test("no shorthand of one value hides the id of another", () => {
    for (const id of VALUE_IDS) expect(idOf(id)).toBe(id);
  });
});

describe("what several values share", () => {
  test("is refused with their ids", () =>
    expect(reasonFor("uniformity")).toBe('"uniformity" can be uniformityCoefficient, uniformityIndex: write which'));

  test("names five of many", () => {
    const reason = reasonFor("phi");
    expect(reason.match(/phi\w+/g)).toHaveLength(5);
    expect(reason).toContain(", ...: write which");
  });
});

describe("a percentile", () => {
  test("is any number above 0 and up to 100, with point or comma", () =>
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1000 }), fc.constantFrom(".", ","), (tenths, mark) => {
        const name = `d${Math.floor(tenths / 10)}${mark}${tenths % 10}`;
        expect(subject(name)).toEqual({ kind: "percentile", passingPct: tenths / 10 });
      }),
    ));

  test("out of that range is told as such", () => {
    for (const name of ["d0", "d100.5", "D101", "percentileUm@0"])
      expect(reasonFor(name)).toBe(`"${name}": a percentile lies above 0 and up to 100 % passing`);
  });

  test("d10 alone is the percentile; the effective size has its own name", () => {
    expect(subject("d10")).toEqual({ kind: "percentile", passingPct: 10 });
    expect(idOf("Effective size d10")).toBe("effectiveSizeUm");
  });
});

describe("a topic", () => {
  test("is found by its name in any spelling", () => {
    for (const topic of TOPICS)
      expect(subject(topic.name.toUpperCase().replace("-", " "))).toEqual({ kind: "topic", topic });
  });
});

test("whatever is typed: a subject, or a short reason on one line", () =>
  fc.assert(
    fc.property(fc.string({ maxLength: 80, unit: "binary" }), (text) => {
      const found = subjectNamed(text);
      if (found.ok) {
        expect(["value", "percentile", "topic"]).toContain(found.value.kind);
        return;
      }
      expect(found.reason).not.toMatch(/[\x00-\x1f\x7f-\x9f]/);
      expect(found.reason.length).toBeLessThan(260);
    }),
  ));
