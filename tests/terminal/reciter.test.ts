import { describe, expect, test } from "vitest";
import { createReciter } from "../../src/terminal/reciter.ts";

/** A reciter whose pause ends when the test says so; answers with the rows written since the last time. */
function reciting(ascii = false) {
  let written = "";
  let due: (() => void) | null = null;
  const take = (bytes: string | Uint8Array): boolean => {
    written += String(bytes);
    return true;
  };
  const reciter = createReciter({
    stdout: { columns: 80, rows: 24, write: take },
    ascii,
    setTimer: (run) => {
      due = run;
      return run;
    },
    clearTimer: () => {
      due = null;
    },
  });
  const told = (): string[] => {
    due?.();
    due = null;
    const rows = written
      .replace(/\x1b\[\?\d+h/g, "")
      .split("\r\n")
      .filter((row) => row !== "");
    written = "";
    return rows;
  };
  return { reciter, told };
}

describe("for a screen reader", () => {
  test("a first frame is told whole, in order, and nothing is ever erased or placed", () => {
    const { reciter, told } = reciting();
    reciter.paint("bench\nresume TH-0510\nkeys: Enter open");
    expect(told()).toEqual(["bench", "resume TH-0510", "keys: Enter open"]);
  });

  test("after a key only what is new is told; with another title all of it", () => {
    const { reciter, told } = reciting();
    reciter.paint("test\n1.40 mm: empty 412.31 g\nkeys");
    told();
    reciter.heard();
    reciter.paint("test\n1.40 mm: empty 412.31 g\n1.00 mm: empty 398.74 g\nkeys");
    expect(told()).toEqual(["1.00 mm: empty 398.74 g"]);
    reciter.heard();
    reciter.paint("bench\nkeys");
    expect(told()).toEqual(["bench", "keys"]);
  });

  test("digits that come fast are told once, as the number they make", () => {
    const { reciter, told } = reciting();
    reciter.paint("test\nfull 4 being typed");
    told();
    for (const typed of ["41", "412", "412.3"]) {
      reciter.heard();
      reciter.paint(`test\nfull ${typed} being typed`);
    }
    expect(told()).toEqual(["full 412.3 being typed"]);
  });

  test("a countdown runs in silence, until its words change or a key asks", () => {
    const { reciter, told } = reciting();
    reciter.paint("shake\n9:58 to go");
    told();
    reciter.paint("shake\n9:57 to go");
    expect(told()).toEqual([]);
    reciter.heard();
    reciter.paint("shake\n9:41 to go");
    expect(told()).toEqual(["9:41 to go"]);
    reciter.paint("shake\ntime is up: Enter");
    expect(told()).toEqual(["time is up: Enter"]);
  });

  test("Ctrl+L tells all of it again; ASCII where there is no more; after the end nothing", () => {
    const { reciter, told } = reciting(true);
    reciter.paint("test\nPASS ✓");
    expect(told()).toEqual(["test", "PASS +"]);
    reciter.repaint();
    expect(told()).toEqual(["test", "PASS +"]);
    reciter.close();
    reciter.paint("other");
    expect(told()).toEqual([]);
  });
});
