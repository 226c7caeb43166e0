import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { isCopiedPath } from "../../src/record/backup.ts";
import { keepScreenChoice, readScreenChoice } from "../../src/store/screenFile.ts";
import { temporaryFolder } from "./temporaryFolder.ts";

test("a theme chosen is there at the next start; none where nothing was chosen", async () => {
  const folder = await temporaryFolder();
  expect(await readScreenChoice(folder)).toEqual({ ok: true, value: null });
  expect((await keepScreenChoice(folder, { theme: "light" })).ok).toBe(true);
  expect(await readScreenChoice(folder)).toEqual({
    ok: true,
    value: { schema: "sievewright.screen/1", theme: "light" },
  });
  expect(isCopiedPath("screen.json")).toBe(true);
});

test.each(["{", '{"schema":"sievewright.screen/1","theme":"pink"}', '{"schema":"sievewright.screen/9"}'])(
  "%s is refused in words, and the next choice takes its place",
  async (text) => {
    const folder = await temporaryFolder();
    writeFileSync(join(folder, "screen.json"), text);
    const read = await readScreenChoice(folder);
    expect(read.ok ? "" : read.reason).toContain("screen.json can't be read");
    expect((await keepScreenChoice(folder, { theme: "dark" })).ok).toBe(true);
    expect(JSON.parse(readFileSync(join(folder, "screen.json"), "utf8"))).toMatchObject({ theme: "dark" });
  },
);
