import { describe, expect, test } from "vitest";
import { planRead } from "../../src/screens/plan/reachPlan.ts";
import type { LatestTests } from "../../src/store/latestTests.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import { FILTER_SAND, Hands } from "../run/hands.ts";
import { anApp, recordedEntry, Stage } from "./stage.ts";

const PRODUCT = { ...FILTER_SAND, material: { particleDensityKgM3: 2650 } };
const LATEST: LatestTests = {
  tests: [3, 2, 1].map((number) => {
    const { at, test: record } = recordedEntry(number);
    return { ...record, number, at };
  }),
  problem: null,
};
const onProduct = (product = PRODUCT) =>
  new Stage(anApp({ place: { name: "product", product }, behind: [{ name: "bench", at: 0 }] }));

function planned(latest: LatestTests = LATEST, product = PRODUCT): Stage {
  const stage = onProduct(product).types("g");
  stage.app = planRead(stage.app, PRODUCT.code, latest);
  return stage;
}

describe("the plan of a product", () => {
  test("g on its page asks for the newest tests and says that they are being read", () => {
    const stage = onProduct().types("g");
    expect(stage.effects).toEqual([{ do: "readPlan", product: "TH-0510" }]);
    expect(stage.screen()).toContain("reading the newest tests");
  });

  test("shows what it is drawn from, every limit, and the one in hand in words", () => {
    const screen = planned().screen();
    expect(screen).toContain("from the mean of the 3 newest tests, no. 1 to 3, 2026-11-21 to 2026-11-23");
    expect(screen).toContain("risk of a wrong acceptance 5 %");
    expect(screen).toMatch(/▸ passing 1.4 mm +95 – 100/);
    expect(screen).toMatch(/ {2}d50 +690 – 790/);
    expect(screen).toMatch(/passing 1.4 mm, 95 to 100 %: \d+ g decides it/);
    expect(planned().presses("down", "down").screen()).toMatch(/▸ d50 .*\n(?:.*\n)*.*d50, 690 to 790 um: /);
  });

  test("a typed charge is what it would decide; Enter alone goes back, Esc takes back what is typed", () => {
    const stage = planned().types(".5");
    expect(stage.screen()).toContain("what if the charge were .5▌ g");
    stage.presses("enter");
    expect(stage.screen()).toContain("charge 0.5 g in 1 portion");
    expect(stage.screen()).toMatch(/passing 1.4 mm .* ~ [\d.]+ g in 1 portion/);
    stage.presses("enter");
    expect(stage.screen()).not.toContain("charge 0.5 g");
    stage.types("9").presses("escape");
    expect(stage.app.place).toMatchObject({ name: "plan", typed: "" });
    expect(stage.presses("escape").app.place.name).toBe("product");
  });

  test("says on the small screen too what a smaller charge loses, and that the method asks for more", () => {
    const screen = planned().screen({ columns: 80, rows: 24 });
    expect(screen).toContain("Sampling is not included: a smaller charge loses more than is counted here.");
    const asking = { ...PRODUCT, method: { ...PRODUCT.method, chargeG: { min: 200, max: 350 } } };
    const small = planned(LATEST, asking).enters("5").screen({ columns: 80, rows: 24 });
    expect(small).toContain("! 5 g is not a charge of the method, which asks for 200 g at least");
    expect(small.indexOf("! 5 g is not")).toBeLessThan(small.indexOf("from the mean"));
    expect(small).not.toMatch(/✓ enough/);
    const low = planned(LATEST, asking).screen({ columns: 60, rows: 16 });
    expect(low).toMatch(/rows 1 to 9 of \d+: Page up, Page down/);
  });

  test("what is no charge is refused and stays to be seen", () => {
    const stage = planned().enters("0");
    expect(stage.app.message).toBe("a charge is more than 0 g");
    expect(planned().enters("1..2").app.place).toMatchObject({ typed: "1..2", chargeG: null });
  });

  test("left and right choose the risk, to its ends", () => {
    expect(planned().presses("right", "right").screen()).toContain("risk of a wrong acceptance 1 %");
    const stage = planned().presses("left", "left");
    expect(stage.screen()).toContain("risk of a wrong acceptance 10 %");
    expect(stage.app.message).toBe("there is no other risk to choose");
  });

  test("without a test that counts there is a reason, and t has nothing to turn to", () => {
    const stage = planned({ tests: [], problem: null });
    expect(stage.screen()).toContain("nothing can be planned: no test of TH-0510 on this station counts yet");
    expect(stage.types("t").app.message).toContain("no test is in hand");
  });

  test("tests of another product that arrive late change nothing; they arrive while the help is open", () => {
    const stage = onProduct().types("g");
    expect(planRead(stage.app, "TH-BAR", LATEST).place).toMatchObject({ latest: null });
    stage.types("?");
    stage.app = planRead(stage.app, PRODUCT.code, LATEST);
    expect(stage.presses("escape").screen()).toContain("from the mean of the 3 newest tests");
  });

  test("fits every window, nothing cut without a sign", () => {
    for (const size of [
      { columns: 60, rows: 16 },
      { columns: 80, rows: 24 },
      { columns: 120, rows: 40 },
    ]) {
      const lines = planned().types("12").lines(size);
      expect(lines.length).toBeLessThan(size.rows);
      for (const line of lines) expect(columnsOf(line)).toBeLessThanOrEqual(size.columns);
    }
  });
});

describe("from a test in work", () => {
  test("g on the result plans from this test alone, and t turns to the newest ones", () => {
    const { run } = new Hands().tests();
    const stage = new Stage(anApp({ place: { name: "run", run, view: 0, writing: null } })).types("g");
    expect(stage.app.place).toMatchObject({ name: "plan", from: "test in hand" });
    expect(stage.screen()).toMatch(/from this test alone \(lot .+\)/);
    stage.app = planRead(stage.app, "TH-0510", LATEST);
    expect(stage.types("t").screen()).toContain("from the mean of the 3 newest tests");
    expect(stage.types("t").screen()).toContain("from this test alone");
  });

  test("the set-out page reaches it by F7, with the newest tests", () => {
    const stage = new Stage().types("n").presses("f7");
    expect(stage.app.place).toMatchObject({ name: "plan", from: "newest tests", inHand: null });
    expect(stage.presses("escape").app.place.name).toBe("run");
  });
});
