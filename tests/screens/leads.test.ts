import { describe, expect, test } from "vitest";
import { leadKeeper } from "../../src/screens/leads.ts";
import { REPEAT_MS, repeatGuard } from "../../src/screens/repeats.ts";
import type { Key } from "../../src/terminal/keys.ts";
import { Stage } from "./stage.ts";

const entry = (text: string, led?: string): Key => ({ name: "entry", text, ended: true, ...(led ? { led } : {}) });

/** A stage whose bursts come as a keyboard wedge sends them: the first characters go ahead. */
class Wedged extends Stage {
  private readonly leads = leadKeeper();
  clockMs = 0;

  override key(key: Key): this {
    const whole = this.leads.whole(this.app, key, this.clockMs);
    this.app = whole.app;
    const before = this.app;
    super.key(whole.key);
    this.leads.took(key, before, this.app, this.clockMs);
    return this;
  }

  wedge(text: string, ahead: number): this {
    this.types(text.slice(0, ahead));
    return this.key(entry(text.slice(ahead), text.slice(0, ahead)));
  }
}

const station = { ...new Stage().app.station, scanner: { prefixes: { lot: "L:" } } };
const setOut = () => new Wedged({ ...new Stage().app, station }).types("n");

describe("a burst whose first characters were typed before it was known for one", () => {
  test("goes as a whole to the field that it is for, and leaves the field in hand as it was", () => {
    const stage = setOut().wedge("L:4499-C", 1);
    expect(stage.screen()).toMatch(/▸ product +TH-0510/);
    expect(stage.screen()).toMatch(/lot +4499-C/);
  });

  test("leaves what a hand had typed before it", () => {
    const stage = setOut().presses("enter", "enter").types("Scr").wedge("L:4499-C", 2);
    expect(stage.screen()).toMatch(/line +Scr▌/);
    expect(stage.screen()).toMatch(/lot +4499-C/);
  });

  test("is one mass in the row in hand", () => {
    const stage = setOut().presses("enter", "enter", "enter", "enter").wedge("300.20 g", 1).wedge("112.31", 2);
    expect(stage.screen()).toMatch(/1\.40 mm +112\.31/);
  });

  const weighing = () => setOut().presses("enter", "enter", "enter", "enter").enters("300.2");
  const sent = (stage: Wedged, signs: string, afterMs: number, text: string): string => {
    stage.types(signs);
    stage.clockMs += afterMs;
    return stage.key(entry(text)).screen();
  };

  test.each(["+", "S +", "+ ", "+ 4"])("is the mass of the row in hand though its sign %j came apart", (signs) =>
    expect(sent(weighing(), signs, 120, signs.endsWith("4") ? "12.31 g" : " 412.31 g")).toMatch(/1\.40 mm +412\.31/),
  );

  test("with a minus that came apart is refused as negative", () => {
    const screen = sent(weighing().presses("down"), "-", 120, " 0.02 g");
    expect(screen).not.toMatch(/1\.40 mm +0\.02/);
    expect(screen).toMatch(/1\.00 mm +[-−] ?0\.02/);
  });

  test("is of the row below where plus was pressed well before it", () =>
    expect(sent(weighing(), "+", 900, "412.31 g")).toMatch(/1\.00 mm +412\.31/));

  test("is whole though something was learnt behind the scenes meanwhile", () => {
    const stage = setOut().types("L");
    stage.app = { ...stage.app, place: { ...stage.app.place } as typeof stage.app.place };
    stage.key(entry(":4499-C", "L"));
    expect(stage.screen()).toMatch(/▸ product +TH-0510/);
    expect(stage.screen()).toMatch(/lot +4499-C/);
  });

  test("goes behind what stands there where a key came between", () => {
    const stage = setOut().presses("enter", "enter", "enter", "enter").types("30").presses("backspace");
    stage.key(entry("00.20 g", "3"));
    expect(stage.screen()).toContain("charge 300.20 g");
  });
});

describe("the same burst again", () => {
  test("within 300 ms is left out, be it once more or over and over; later it is not", () => {
    const repeats = repeatGuard();
    expect(repeats(entry("+ 412.31 g"), 1000)).toBe(false);
    expect(repeats(entry("+ 412.31 g"), 1000 + REPEAT_MS - 1)).toBe(true);
    expect(repeats(entry("+ 412.31 g "), 1000 + 2 * REPEAT_MS - 2)).toBe(true);
    expect(repeats(entry("+ 412.31 g"), 1000 + 3 * REPEAT_MS)).toBe(false);
  });

  test("another burst, or keys, within that time are taken", () => {
    const repeats = repeatGuard();
    expect(repeats(entry("412.31"), 0)).toBe(false);
    expect(repeats(entry("398.74"), 10)).toBe(false);
    expect(repeats(entry("412.31"), 20)).toBe(false);
    expect(repeats({ name: "enter" }, 30)).toBe(false);
  });
});
