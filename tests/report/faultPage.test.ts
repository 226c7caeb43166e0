import { describe, expect, test } from "vitest";
import { faultInShort, faultPage } from "../../src/report/faultPage.ts";

const faultAt = (path: string): Error =>
  Object.assign(new TypeError("x is not a function"), {
    stack: `TypeError: x is not a function\n    at f (${path}:1:2)`,
  });

const page = (fault: unknown, hidden: readonly (readonly [string, string])[] = []) =>
  faultPage({ at: "2026-11-24T03:12:05+01:00", versions: "0.1.0, node 20", place: "bench", fault, hidden });

describe("the report of a fault", () => {
  test("tells when, which version, where on the screen, what, and the stack", () =>
    expect(page(faultAt("/app/dist/x.mjs"))).toBe(
      [
        "Sievewright stopped because of a fault of its own.",
        "Nothing that was entered stands in this report.",
        "",
        "time     2026-11-24T03:12:05+01:00",
        "version  0.1.0, node 20",
        "place    bench",
        "fault    TypeError: x is not a function",
        "    at f (/app/dist/x.mjs:1:2)",
        "",
      ].join("\n"),
    ));

  test("shows signs instead of the paths that can name a person, as often as they stand there", () => {
    const told = page(faultAt("/home/k.orr/app/x.mjs:/home/k.orr/y"), [
      ["/home/k.orr", "~"],
      ["", "never"],
    ]);
    expect(told).toContain("    at f (~/app/x.mjs:~/y:1:2)");
    expect(told).not.toMatch(/k\.orr|never/);
  });

  test("is short, whatever was thrown: forty lines of 240 characters at most", () => {
    const endless = Object.assign(new Error("m".repeat(5000)), {
      stack: `Error: ${"m".repeat(5000)}\n${"    at f (x.mjs:1:2)\n".repeat(1000)}`,
    });
    const lines = page(endless).trimEnd().split("\n");
    expect(lines).toHaveLength(40);
    expect(Math.max(...lines.map((line) => line.length))).toBe(240);
  });

  test("carries no control or escape sequence of a message", () =>
    expect(page(new Error("\u001b[2Jgone\u0007\u202e"))).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u202e]/));

  test("has the name and message where a stack does not begin with them", () =>
    expect(page(Object.assign(new Error("said"), { stack: "    at f (x:1:2)" }))).toContain(
      "fault    Error: said\n    at f (x:1:2)\n",
    ));

  test.each([
    ["a text", "thrown: a text"],
    [undefined, "thrown: undefined"],
    [{ pin: "4711" }, "thrown: object"],
    [Object.create(null), "thrown: object"],
  ])("of %j that is no error says what kind of thing it was", (thrown, words) => {
    expect(faultInShort(thrown)).toBe(words);
    expect(page(thrown)).toContain(`fault    ${words}\n`);
  });
});
