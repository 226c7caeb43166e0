import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { burstOf } from "../../src/entry/burst.ts";

const forms = { prefixes: { lot: "L:", sieve: "]C1S", product: "PRD-" } };

describe("what came in one go", () => {
  test.each([
    ["L:4471-B", { kind: "scan", of: "lot", text: "4471-B" }],
    ["l: 4471-B ", { kind: "scan", of: "lot", text: "4471-B" }],
    ["]C1SS-0710-2", { kind: "scan", of: "sieve", text: "S-0710-2" }],
    ["prd-TH-0510", { kind: "scan", of: "product", text: "TH-0510" }],
    ["L:", { kind: "text", text: "L:" }],
    ["4471-B", { kind: "text", text: "4471-B" }],
    ["4471", { kind: "text", text: "4471" }],
    ["q", { kind: "text", text: "q" }],
    ["+  521.40 g", { kind: "mass", massG: { ok: true, value: 521.4 }, text: "+  521.40 g" }],
    ["L:521.40 g", { kind: "scan", of: "lot", text: "521.40 g" }],
  ])("%j", (sent, burst) => expect(burstOf(sent, forms)).toEqual(burst));

  test("a line of the balance that is refused is a mass all the same", () =>
    expect(burstOf("521.40 g ?", forms)).toMatchObject({ kind: "mass", massG: { ok: false } }));

  test("without prefixes nothing is a scan of a kind", () =>
    expect(burstOf("L:4471-B", {})).toEqual({ kind: "text", text: "L:4471-B" }));

  test("the marks of the station's own balance count", () =>
    expect(burstOf("521.40 !", { balance: { moving: ["!"] } }).kind).toBe("mass"));
});

test("whatever is printed behind a prefix is read back as that kind and text", () =>
  fc.assert(
    fc.property(
      fc.constantFrom("lot", "sieve", "product"),
      fc.stringMatching(/^[!-~][ -~]{0,30}$/).map((text) => text.trim()),
      fc.boolean(),
      (of, text, lower) => {
        const prefix = forms.prefixes[of as keyof typeof forms.prefixes];
        expect(burstOf(`${lower ? prefix.toLowerCase() : prefix}${text}`, forms)).toEqual({ kind: "scan", of, text });
      },
    ),
  ));

test("never throws and loses nothing of what it can't tell", () =>
  fc.assert(
    fc.property(fc.string({ unit: "binary" }), (sent) => {
      const burst = burstOf(sent, forms);
      if (burst.kind !== "scan") expect(burst.text).toBe(sent.trim());
    }),
  ));
