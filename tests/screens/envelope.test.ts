import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { draftFrom, type ProductDraft, ProductDraftSchema } from "../../src/record/productDraft.ts";
import type { App, Effect } from "../../src/screens/place.ts";
import { draftOpened, latestLearnt, productDraftSaved } from "../../src/screens/products/productAnswers.ts";
import type { NamedKey } from "../../src/terminal/keys.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import type { Manner } from "../../src/words/manner.ts";
import { FILTER_SAND } from "../run/hands.ts";
import { anApp, recordedEntry, Stage } from "./stage.ts";

const DRAFT = draftFrom(FILTER_SAND, "KO", "2026-11-24T03:00:00+01:00");
const WIDE = { columns: 120, rows: 40 };

const opened = (draft: ProductDraft = DRAFT, change: Partial<App> = {}) =>
  new Stage(draftOpened(anApp({ ...change }), draft, "KO", null));
const draftIn = (stage: Stage) => stage.app.productDrafts.find(({ draft }) => draft.code === "TH-0510");
const savedIn = (stage: Stage) =>
  stage.effects.flatMap((effect: Effect) => (effect.do === "saveProductDraft" ? [effect.draft] : []));
const limitAt = (stage: Stage, apertureUm: number) =>
  draftIn(stage)?.draft.envelope?.find((limit) => limit.apertureUm === apertureUm);

describe("the envelope of a draft", () => {
  test("has a row for each sieve with its limits, and for each value", () => {
    const screen = opened().screen();
    expect(screen).toContain("TH-0510 draft of revision 4");
    expect(screen).toMatch(/▸ passing 1\.40 mm % +95▌ +100/);
    expect(screen).toMatch(/passing 710 um % *\n|passing 710 um % +│/);
    expect(screen).toMatch(/d50 um +690 +790/);
    expect(screen).toContain("decision simple");
  });

  test("takes a bound with its digits and one Enter, goes on to the other side, then to the row below", () => {
    const stage = opened().enters("96");
    expect(limitAt(stage, 1400)).toEqual({ apertureUm: 1400, passingPct: { min: 96, max: 100 } });
    stage.enters("99,5");
    expect(limitAt(stage, 1400)).toEqual({ apertureUm: 1400, passingPct: { min: 96, max: 99.5 } });
    expect(stage.app.place).toMatchObject({ at: 1, side: "min", typed: "" });
    expect(savedIn(stage)).toHaveLength(2);
    expect(stage.keysPressed).toBe(2 + 1 + 4 + 1);
  });

  test("asks for each accepted bound to be saved at once, and shows until then that it is not", () => {
    const stage = opened().enters("96").presses("up");
    expect(stage.screen()).toContain("… passing 1.40 mm");
    const [saved] = savedIn(stage);
    if (!saved) throw new Error("nothing was saved");
    stage.app = productDraftSaved(stage.app, saved);
    expect(stage.screen()).toContain("▸ passing 1.40 mm");
  });

  test("refuses what has two readings by the decimal sign that the screens show, though the station names none", () => {
    const manner: Manner = { language: "en", decimal: "comma", dates: "year first" };
    expect(opened(DRAFT, { manner }).enters("1.250").screen(WIDE)).toContain("can be read in two ways");
    expect(opened(DRAFT).enters("1,250").screen(WIDE)).toContain("can be read in two ways");
  });

  test("Enter in an empty field leaves what stands there", () => {
    const stage = opened().presses("enter", "enter", "enter");
    expect(savedIn(stage)).toEqual([]);
    expect(stage.app.place).toMatchObject({ at: 1, side: "max" });
  });

  test.each([
    ["101", "101 % is no share of a whole: it lies between 0 and 100"],
    ["1.2.3", /two separators|separators/],
    ["5g", /not a number|is not/],
  ])("does not take %s, says why, and keeps what was typed", (typed, why) => {
    const stage = opened().enters(typed);
    expect(stage.app.message).toMatch(why);
    expect(stage.app.place).toMatchObject({ typed, at: 0, side: "min" });
    expect(savedIn(stage)).toEqual([]);
  });

  test("does not take a lower bound above the upper one", () => {
    const stage = opened().presses("down", "enter").enters("70");
    expect(stage.app.message).toBe("at least 75 is above at most 70: nothing could meet both");
  });

  test("tells while one types what no curve can do", () => {
    const stage = opened().presses("down", "down").types("97");
    expect(stage.screen(WIDE)).toContain(
      "! at most 95 % passing 1.00 mm, but at least 97 % passing the finer 710 um: no curve does both",
    );
    expect(stage.presses("escape").screen(WIDE)).not.toContain("no curve does both");
  });

  test("is drawn alongside with what is being typed, before it is accepted", () => {
    const stage = opened(DRAFT).presses("down", "down");
    const before = stage.lines(WIDE);
    stage.types("20");
    const typing = stage.lines(WIDE);
    const right = (lines: readonly string[]) => lines.map((text) => text.slice(60)).join("\n");
    expect(right(typing)).not.toBe(right(before));
    expect(right(typing)).toContain("▴");
    stage.presses("escape");
    expect(right(stage.lines(WIDE))).toBe(right(before));
  });

  test("shows the product's latest test: its figures with how they would stand, and its curve", () => {
    const stage = opened();
    stage.app = latestLearnt(stage.app, "TH-0510", recordedEntry().test);
    const screen = stage.screen(WIDE);
    expect(screen).toMatch(/passing 1\.40 mm % +95▌ +100 +98\.1 ✓/);
    expect(screen).toContain("latest ●: lot 4470-A");
    expect(screen).toContain("●");
    expect(stage.enters("99").screen(WIDE)).toMatch(/passing 1\.40 mm % +99 +100▌ +98\.1 ✗/);
  });

  test("x takes a bound away, d the whole row; the last bound of an aperture takes its limit", () => {
    const stage = opened().types("x");
    expect(limitAt(stage, 1400)).toEqual({ apertureUm: 1400, passingPct: { max: 100 } });
    stage.presses("tab").types("x");
    expect(limitAt(stage, 1400)).toBeUndefined();
    stage.types("x");
    expect(stage.app.message).toBe("no limit on this side");
    for (let i = 0; i < 5; i++) stage.presses("down");
    expect(stage.types("d").app.productDrafts[0]?.draft.values).toEqual([]);
  });

  test("u takes edits back one by one, each saved again", () => {
    const stage = opened().enters("96").enters("99").types("u");
    expect(limitAt(stage, 1400)).toEqual({ apertureUm: 1400, passingPct: { min: 96, max: 100 } });
    stage.types("u");
    expect(draftIn(stage)?.draft.envelope).toEqual(DRAFT.envelope);
    expect(savedIn(stage)).toHaveLength(4);
    expect(stage.types("u").app.message).toBe("nothing to take back");
  });

  test("can still be taken back after Esc and coming in again", () => {
    const stage = opened().enters("96").presses("escape");
    const draft = draftIn(stage)?.draft;
    if (!draft) throw new Error("the draft is gone");
    stage.app = draftOpened(stage.app, draft, "KO", null);
    expect(limitAt(stage.types("u"), 1400)).toEqual({ apertureUm: 1400, passingPct: { min: 95, max: 100 } });
  });

  test("Esc drops a half-typed number first, then leaves; what was accepted stays", () => {
    const stage = opened().enters("96").types("4").presses("escape");
    expect(stage.app.place).toMatchObject({ name: "envelope", typed: "" });
    stage.presses("escape");
    expect(stage.app.place.name).toBe("bench");
    expect(limitAt(stage, 1400)).toMatchObject({ passingPct: { min: 96 } });
  });

  test("r turns the decision to guarded and back", () => {
    const stage = opened().types("r");
    expect(stage.screen()).toContain("decision guarded");
    expect(stage.types("r").screen()).toContain("decision simple");
  });

  test("the mark of who edited goes with the edit", () => {
    const stage = opened({ ...DRAFT, author: "ML" }).enters("96");
    expect(savedIn(stage)[0]).toMatchObject({ author: "KO" });
  });
});

describe("adding a limit", () => {
  test("on an aperture by its name, with its first bound it is one", () => {
    const stage = opened().types("a").types("retained 250").presses("enter");
    expect(stage.app.place).toMatchObject({ adding: null });
    expect(savedIn(stage)).toEqual([]);
    expect(stage.screen(WIDE)).toContain("the stack has no 250 um sieve");
    stage.enters("2");
    expect(limitAt(stage, 250)).toEqual({ apertureUm: 250, retainedPct: { min: 2 } });
  });

  test("on no aperture says what one looks like", () => {
    const stage = opened().types("a").enters("fish");
    expect(stage.app.message).toMatch(/names no aperture/);
    expect(stage.app.place).toMatchObject({ adding: { text: "fish" } });
  });

  test("on a value found by its beginning, or a percentile by its name", () => {
    const stage = opened().types("w").types("modulus").presses("enter");
    expect(draftIn(stage)?.draft.values?.at(-1)).toEqual({ id: "finenessModulus" });
    stage.presses("enter").enters("2.6");
    expect(draftIn(stage)?.draft.values?.at(-1)).toEqual({ id: "finenessModulus", max: 2.6 });
    stage.types("w").enters("d10");
    expect(draftIn(stage)?.draft.values?.at(-1)).toEqual({ id: "percentileUm", passingPct: 10 });
    stage.types("w").enters("d50");
    expect(stage.app.message).toBe("this value is asked for already");
  });

  test("is left by Esc, and nothing is added", () => {
    const stage = opened().types("w").types("span").presses("down", "escape");
    expect(stage.app.place).toMatchObject({ name: "envelope", adding: null });
    expect(draftIn(stage)?.draft).toBe(DRAFT);
  });
});

test("a draft that was published meanwhile is told, and no key loses its way", () => {
  const stage = opened();
  stage.app = { ...stage.app, productDrafts: [] };
  expect(stage.screen()).toContain("has been published or discarded");
  stage.enters("5").types("xduracw").presses("up", "down", "escape", "escape", "escape");
  expect(stage.app.place.name).toBe("bench");
});

const NAMED: readonly NamedKey[] = ["enter", "up", "down", "tab", "backspace", "left"];

test("whatever is pressed: no frame too wide or high, no draft that could not be stored", () =>
  fc.assert(
    fc.property(
      fc.array(fc.oneof(fc.constantFrom(...NAMED), fc.constantFrom(..."0123456789.,+-xdruawe")), { maxLength: 60 }),
      fc.constantFrom({ columns: 60, rows: 16 }, { columns: 80, rows: 24 }, WIDE),
      (keys, size) => {
        const stage = opened();
        for (const key of keys) {
          if (key.length === 1) stage.types(key);
          else stage.presses(key as NamedKey);
        }
        const lines = stage.lines(size);
        expect(lines).toHaveLength(size.rows - 1);
        for (const text of lines) expect(columnsOf(text)).toBeLessThanOrEqual(size.columns);
        for (const draft of savedIn(stage)) expect(ProductDraftSchema.safeParse(draft).error).toBeUndefined();
      },
    ),
    { numRuns: 60 },
  ));
