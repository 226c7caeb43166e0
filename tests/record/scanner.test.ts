import { describe, expect, test } from "vitest";
import { ScannerSchema } from "../../src/record/scanner.ts";

const reasons = (scanner: unknown): string[] => {
  const read = ScannerSchema.safeParse(scanner);
  return read.success ? [] : read.error.issues.map(({ message }) => message);
};

describe("what a station settles about scanners", () => {
  test("prefixes of any kind, each its own, and marks of the balance", () => {
    expect(reasons({})).toEqual([]);
    expect(reasons({ prefixes: { lot: "L:", sieve: "]C1S", operator: "#" } })).toEqual([]);
    expect(reasons({ balance: { atRest: ["OK"], moving: ["!", "??"], passedOver: ["Sieb"] } })).toEqual([]);
  });

  test.each([
    [{ prefixes: { lot: "L", line: "LN" } }, "has a prefix that begins like another"],
    [{ prefixes: { lot: "L:", line: "l:" } }, "has a prefix that begins like another"],
    [{ prefixes: { lot: "L: " } }, "begins or ends with a space"],
    [{ prefixes: { lot: "" } }, "Too small"],
    [{ prefixes: { lot: "\u001bx" } }, "has control or broken characters"],
    [{ prefixes: { shelf: "R:" } }, "shelf"],
    [{ balance: { moving: ["1"] } }, "must be letters, or one or two signs"],
    [{ balance: { moving: ["+"] } }, "must be letters, or one or two signs"],
    [{ sound: true }, "sound"],
  ])("%j is refused", (scanner, why) => expect(reasons(scanner).join()).toContain(why));
});
