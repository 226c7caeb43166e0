import { createHash } from "node:crypto";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { FIRST_PREVIOUS, sealOf, shortSeal } from "../../src/record/seal.ts";

const sha256 = (text: string) => createHash("sha256").update(text, "utf8").digest("hex");

describe("the seal of an entry", () => {
  test("is the SHA-256 of its canonical JSON", () =>
    // memory: SHA-256 of the two characters {}, as printed wherever the hash of an empty JSON object is quoted
    expect(sealOf({})).toBe("44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a"));

  test("writes numbers and texts as the standard's own example does", () => {
    // memory: RFC 8785, section 3.2.2, sample input and its canonical form
    const sample = {
      numbers: [Number("333333333.33333329"), 1e30, 4.5, 2e-3, 0.000000000000000000000000001],
      string: "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"/",
      literals: [null, true, false],
    };
    const canonical =
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],' +
      '"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}';
    expect(sealOf(sample)).toBe(sha256(canonical));
  });

  test("sorts names by their UTF-16 code units, as the standard's own example does", () => {
    // memory: RFC 8785, section 3.2.3, the order of the sample's names
    const order = ["\r", "1", "\u0080", "\u00f6", "\u20ac", "\ud83d\ude00", "\ufb33"];
    const shuffled = Object.fromEntries([4, 0, 6, 1, 5, 2, 3].map((i) => [order[i], i]));
    const canonical = `{${order.map((name, i) => `${JSON.stringify(name)}:${i}`).join(",")}}`;
    expect(sealOf(shuffled)).toBe(sha256(canonical));
  });

  test("does not depend on the order of fields or on spacing", () =>
    fc.assert(
      fc.property(fc.dictionary(fc.string(), fc.jsonValue({ maxDepth: 2 })), (entry) => {
        const turned = Object.fromEntries(Object.entries(entry).reverse());
        const spaced = JSON.parse(JSON.stringify(turned, null, 7));
        expect(sealOf(spaced)).toBe(sealOf(JSON.parse(JSON.stringify(entry))));
      }),
    ));

  test("changes with any one figure", () =>
    fc.assert(
      fc.property(
        fc.array(fc.double({ noNaN: true, noDefaultInfinity: true }), { minLength: 1 }),
        fc.nat(),
        (list, at) => {
          const i = at % list.length;
          const other = list.map((figure, k) => (k === i ? (figure === 0 ? 1 : figure / 2 + 1e300) : figure));
          fc.pre(JSON.stringify(other) !== JSON.stringify(list));
          expect(sealOf({ list: other })).not.toBe(sealOf({ list }));
        },
      ),
    ));

  test("is 64 hexadecimal digits, as is what stands before the first entry", () => {
    expect(sealOf({ number: 1 })).toMatch(/^[0-9a-f]{64}$/);
    expect(FIRST_PREVIOUS).toMatch(/^0{64}$/);
  });

  test.each([Number.NaN, Number.POSITIVE_INFINITY])("refuses %s, which has no JSON", (figure) =>
    expect(() => sealOf({ figure })).toThrow(),
  );
});

describe("the short form of a seal", () => {
  test("is its first 12 digits in groups of four", () =>
    // memory: the SHA-256 of an empty JSON object, as above
    expect(shortSeal(sealOf({}))).toBe("4413 6fa3 55b3"));

  test("tells two entries apart and says no more than the seal does", () => {
    const [one, other] = [sealOf({ number: 1 }), sealOf({ number: 2 })];
    expect(shortSeal(one)).not.toBe(shortSeal(other));
    expect(one.startsWith(shortSeal(one).replaceAll(" ", ""))).toBe(true);
    expect(shortSeal(one)).toMatch(/^[0-9a-f]{4} [0-9a-f]{4} [0-9a-f]{4}$/);
  });
});
