import { chmodSync, mkdirSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { inputFile, inputName } from "../../src/commands/inputFile.ts";
import { MOST_BYTES } from "../../src/record/fileText.ts";
import { file, folder } from "./inProcess.ts";

async function* parts(...chunks: (string | Uint8Array)[]) {
  yield* chunks;
}

const read = async (name: string, ...stdin: (string | Uint8Array)[]) => {
  const found = await inputFile(name, { stdin: parts(...stdin) });
  return found.ok ? new TextDecoder().decode(found.value) : found.ending;
};

describe("a file that somebody named", () => {
  test("is read whole", async () => expect(await read(file("a.csv", "63,1\n"))).toBe("63,1\n"));

  test("may be empty: its reader says so", async () => expect(await read(file("a.csv", ""))).toBe(""));

  test.runIf(process.platform !== "win32")("is read through a link", async () => {
    const [target, link] = [file("a.csv", "x"), join(folder(), "link.csv")];
    symlinkSync(target, link);
    expect(await read(link)).toBe("x");
  });

  test("however large is read to one byte beyond the largest allowed", async () => {
    const path = file("a.csv", "");
    writeFileSync(path, Buffer.alloc(3 * MOST_BYTES, 120));
    expect(String(await read(path))).toHaveLength(MOST_BYTES + 1);
  });

  test("that is not there, or below a file, is 66", async () => {
    const path = file("a.csv", "x");
    for (const none of [`${path}x`, join(path, "b.csv"), join(folder(), "x".repeat(300))])
      expect(await read(none)).toEqual({ code: 66, fault: `${none}: there is no such file: check the name` });
  });

  test("that is a folder is 66", async () => {
    const path = join(folder(), "sheets");
    mkdirSync(path);
    expect(await read(path)).toEqual({ code: 66, fault: `${path}: is a folder: name a file` });
  });

  test.runIf(process.platform === "linux" && process.getuid?.() !== 0)("that may not be read is 66", async () => {
    const path = file("a.csv", "x");
    chmodSync(path, 0);
    expect(await read(path)).toEqual({ code: 66, fault: `${path}: may not be read: ask for the right to read it` });
  });

  test("named as no file can be is told, not thrown", async () =>
    expect(await read("a\u0000b")).toEqual({ code: 66, fault: "a\u0000b: there is no such file: check the name" }));
});

describe("standard input", () => {
  test("is read whole, from text and bytes", async () =>
    expect(await read("-", "a", new TextEncoder().encode("ü"), "c")).toBe("aüc"));

  test("is read no further than one byte beyond the largest file, however much comes", async () => {
    let asked = 0;
    async function* endless() {
      for (;;) {
        asked += 1;
        yield "x".repeat(100_000);
      }
    }
    const found = await inputFile("-", { stdin: endless() });
    expect(found.ok && found.value.length).toBeGreaterThan(MOST_BYTES);
    expect(asked).toBe(11);
  });

  test("is called by its name in messages, files by theirs", () =>
    expect([inputName("-"), inputName("a.csv")]).toEqual(["standard input", "a.csv"]));
});
