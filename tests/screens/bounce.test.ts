import { describe, expect, test } from "vitest";
import { BOUNCE_MS, bounceGuard } from "../../src/screens/bounce.ts";
import { EMPTY_G, FULL_G } from "../run/hands.ts";
import { Stage } from "./stage.ts";

const two = (grams: number) => grams.toFixed(2);

/** A stage whose every key goes through the guard, with a clock of its own. */
class Guarded extends Stage {
  private readonly bounces = bounceGuard();
  private clock = 0;

  override key(key: Parameters<Stage["key"]>[0]): this {
    return this.bounces(this.app, key, this.clock) ? this : super.key(key);
  }

  after(ms: number): this {
    this.clock += ms;
    return this;
  }

  /** Enters so far apart that a hand may have meant each. */
  entersSlowly(times: number): this {
    for (let i = 0; i < times; i++) this.after(BOUNCE_MS).presses("enter");
    return this;
  }
}

function beforeLastMass(): Guarded {
  const stage = new Guarded();
  stage.types("n").entersSlowly(4).types("300.20").entersSlowly(1);
  for (const grams of EMPTY_G) stage.types(two(grams)).entersSlowly(1);
  stage.entersSlowly(1).waits(600).entersSlowly(1);
  for (const grams of FULL_G.slice(0, 5)) stage.types(two(grams)).entersSlowly(1);
  return stage.types(two(FULL_G[5] ?? 0)).after(BOUNCE_MS);
}

describe("an Enter that nobody meant", () => {
  test("a held Enter on the last mass stops at the result: nothing is signed", () => {
    const stage = beforeLastMass();
    for (let i = 0; i < 50; i++) stage.presses("enter").after(40);
    expect(stage.app.place).toMatchObject({ name: "run", run: { draft: { stage: "result" } } });
    expect(stage.effects.filter((e) => e.do === "record")).toEqual([]);
  });

  test("wanted ones, a quarter of a second apart, sign and record", () => {
    const stage = beforeLastMass().presses("enter").entersSlowly(3);
    expect(stage.effects.filter((e) => e.do === "record")).toHaveLength(1);
  });

  test("a doubted mass is not accepted by the bounce of the Enter that entered it", () => {
    const stage = new Guarded()
      .types("n")
      .entersSlowly(4)
      .types("300.20")
      .entersSlowly(1)
      .types("4000")
      .after(BOUNCE_MS);
    stage.presses("enter").after(40).presses("enter");
    expect(stage.screen()).toContain("the balance carries 3100 g only");
    expect(stage.app.drafts[0]?.weighings[0]?.emptyG).toBeNull();
    expect(stage.entersSlowly(1).app.drafts[0]?.weighings[0]?.emptyG).toBe(4000);
  });

  test("the Enter of a typing balance is followed by no bounce into a doubt either", () => {
    const stage = new Guarded().types("n").entersSlowly(4).types("300.20").entersSlowly(1);
    stage.after(BOUNCE_MS).scans("4000 g").after(40).presses("enter");
    expect(stage.app.drafts[0]?.weighings[0]?.emptyG).toBeNull();
  });

  test("from field to field of one page Enters may follow at once", () => {
    const stage = new Guarded().types("n").presses("enter").after(40).presses("enter").after(40).presses("enter");
    expect(stage.app.place).toMatchObject({ name: "run", run: { at: 3 } });
  });
});
