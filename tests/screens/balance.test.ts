import { describe, expect, test } from "vitest";
import type { BalanceCheck } from "../../src/record/checks.ts";
import { BalanceCheckSchema } from "../../src/record/checks.ts";
import type { RegisterItem } from "../../src/record/register.ts";
import { balanceChecked, notRecorded } from "../../src/screens/answers.ts";
import type { App } from "../../src/screens/place.ts";
import { knownOf, NOTHING_KNOWN } from "../care/knownWorld.ts";
import { anApp, STATION, Stage } from "./stage.ts";

const WEIGHED = {
  ...STATION,
  shiftBegins: ["06:00", "14:00", "22:00"],
  checkWeights: [
    { weight: "W500", weightClass: "F1" as const, nominalG: 500, toleranceG: 0.03 },
    { weight: "W50", nominalG: 50, toleranceG: 0.02 },
  ],
};
const atBalance = (change: Partial<App> = {}) => new Stage(anApp({ station: WEIGHED, ...change })).types("b");
const recorded = (stage: Stage): BalanceCheck | undefined => {
  const effect = stage.effects.at(-1);
  return effect?.do === "recordCheck" ? effect.check : undefined;
};
const check = (at: string, readG = 500): BalanceCheck => ({
  at,
  balance: "B1",
  by: "KO",
  readings: [{ nominalG: 500, readG, toleranceG: 0.03 }],
});

describe("the balance check", () => {
  test("takes what the balance types; a reading that is not at rest is refused and replaced by the next", () => {
    const stage = atBalance().scans("+ 500.01 g ?");
    expect(stage.screen()).toContain("the balance says it is not at rest (?)");
    stage.scans("S N + 500.01 g").scans("49.98 g S");
    expect(stage.app.place).toMatchObject({ name: "balance", readG: [500.01, 49.98] });
    expect(stage.scans("U:KO").screen()).toContain("takes an Enter by hand");
    expect(recorded(stage)).toBeUndefined();
  });

  test("asks each weight in turn, then who checked, and records every reading", () => {
    const stage = atBalance().enters("500.01").enters("49.98");
    expect(stage.screen()).toContain("checked by  KO");
    stage.presses("enter");
    expect(recorded(stage)).toMatchObject({
      balance: "B1",
      by: "KO",
      readings: [
        { weight: "W500", weightClass: "F1", nominalG: 500, readG: 500.01, toleranceG: 0.03 },
        { weight: "W50", nominalG: 50, readG: 49.98, toleranceG: 0.02 },
      ],
    });
    expect(BalanceCheckSchema.safeParse(recorded(stage)).success).toBe(true);
  });

  test("says of each reading whether it lies within the weight's tolerance, the tolerance itself included", () => {
    expect(atBalance().enters("500.03").screen()).toMatch(/W500 +500\.00 g +± 0\.03 g +500\.03 g +within ✓/);
    expect(atBalance().enters("500.04").screen()).toMatch(/W500 .* 500\.04 g +OFF ✗/);
    expect(atBalance().enters("499.96").screen()).toContain("OFF ✗");
  });

  test("offers to weigh again where a reading is off, before anything is recorded", () => {
    const stage = atBalance().enters("500.40");
    expect(stage.screen()).toContain("W500 off: clean pan and weight, zero; F4 takes a reading back");
    stage.types("u").enters("500.01");
    expect(stage.screen()).not.toContain("off: clean");
    expect(stage.enters("49.50").screen()).toContain("W50 off:");
  });

  test("that failed is told on the set-out page, and holds nothing up", () => {
    const stage = new Stage(anApp({ station: WEIGHED, balanceCheck: check("2026-11-24T02:41:00+01:00", 500.4) }));
    stage.types("n");
    const failed = "balance FAILED its check at 02:41: clean it and check again";
    expect(stage.screen()).toContain(failed);
    expect(stage.presses("enter").screen()).toContain("▸ lot");
    const good = new Stage(anApp({ station: WEIGHED, balanceCheck: check("2026-11-24T02:41:00+01:00") }));
    expect(good.types("n").screen()).not.toContain("FAILED");
  });

  test("says whether balance and weights are relied on still, as the register has it", () => {
    const calibration = { day: "2025-12-01", laboratory: "Invented Metrology", due: "2026-12-01" };
    const items: RegisterItem[] = [
      { schema: "sievewright.balance/1", id: "B1", capacityG: 3100, readabilityG: 0.01, calibration },
      {
        schema: "sievewright.checkWeight/1",
        weight: "W500",
        nominalG: 500,
        certificate: { ...calibration, due: "2026-11-01" },
      },
    ];
    const screen = atBalance({ care: knownOf(items) }).screen();
    expect(screen).toContain("balance B1: calibration due on 2026-12-01 !");
    expect(screen).toContain("W500: certificate overdue since 2026-11-01 !");
    expect(atBalance({ care: NOTHING_KNOWN }).screen()).not.toContain("calibration");
  });

  test("marks the weight in hand and shows what is typed there", () => {
    expect(atBalance().types("500,0").screen()).toMatch(/▸ W500 .* 500,0▌/);
    expect(atBalance().enters("500").types("4").screen()).toMatch(/▸ W50 .* 4▌/);
  });

  test("takes readings from a balance that types them", () => {
    const stage = atBalance().scans("+  500.01 g").scans("+   49.99 g");
    expect(stage.app.place).toMatchObject({ readG: [500.01, 49.99] });
    expect(stage.screen()).toContain("checked by");
  });

  test("refuses what is no mass with the reason, and keeps what was typed", () => {
    const stage = atBalance().enters("5..0");
    expect(stage.app.message).not.toBeNull();
    expect(stage.app.place).toMatchObject({ readG: [], typed: "5..0" });
    expect(atBalance().presses("enter").app.message).toBe("nothing was entered");
  });

  test("takes readings back one by one, in the field of digits by u and while signing by F4", () => {
    const stage = atBalance().enters("500.01").types("u");
    expect(stage.app.place).toMatchObject({ readG: [] });
    stage.enters("500.02").enters("49.98").types("ML").presses("f4");
    expect(stage.app.place).toMatchObject({ readG: [500.02], typed: "" });
    expect(stage.types("uu").app.place).toMatchObject({ readG: [] });
  });

  test("is signed with the initials typed, else with those of whoever signed last; somebody has to", () => {
    expect(recorded(atBalance().enters("500").enters("50").enters("ML"))?.by).toBe("ML");
    const nobody = atBalance({ operator: "" }).enters("500").enters("50").presses("enter");
    expect(recorded(nobody)).toBeUndefined();
    expect(nobody.app.message).toContain("sign with your initials");
    expect(recorded(nobody.enters("much too long"))).toBeUndefined();
  });

  test("left by Esc records nothing", () => {
    const stage = atBalance().enters("500").presses("escape");
    expect(stage.app.place.name).toBe("bench");
    expect(stage.effects).toEqual([]);
  });

  test("can't be begun without check weights or where nothing may be recorded, and says why", () => {
    expect(new Stage().types("b").app.message).toContain("no check weights in station.json");
    const stage = atBalance({ readOnly: "another window has this station open" });
    expect(stage.app).toMatchObject({ message: "another window has this station open", place: { name: "bench" } });
  });
});

describe("a check on record", () => {
  test("that passed is told, and the bench says when the balance was checked", () => {
    const stage = atBalance();
    stage.app = balanceChecked(stage.app, check("2026-11-24T03:05:00+01:00"));
    expect(stage.screen()).toContain("every weight read within its tolerance");
    expect(stage.screen()).toContain("balance ok 03:05");
  });

  test("that failed says to take the balance out of use, and the bench goes on saying so", () => {
    const stage = atBalance();
    stage.app = balanceChecked(stage.app, check("2026-11-24T03:05:00+01:00", 500.5));
    expect(stage.screen()).toContain("balance FAILED its check: take it out of use");
    expect(stage.types("p").presses("escape").screen()).toContain("balance FAILED !");
  });

  test("is what tests set out afterwards are judged by", () => {
    const stage = atBalance();
    stage.app = balanceChecked(stage.app, check("2026-11-24T03:05:00+01:00"));
    stage.types("n");
    expect(stage.app.place).toMatchObject({
      run: { draft: { balanceKnown: { last: { by: "KO" }, shiftBegan: "2026-11-23T22:00:00+01:00" } } },
    });
  });

  test("that the disk refused is told, and nothing is forgotten", () => {
    const stage = atBalance().enters("500").enters("50").presses("enter");
    stage.app = notRecorded(stage.app, "the disk is full");
    expect(stage.screen()).toContain("not recorded: the disk is full");
    expect(stage.app.place).toMatchObject({ readG: [500, 50] });
    expect(recorded(stage.presses("enter"))?.readings).toHaveLength(2);
  });
});

describe("the bench", () => {
  const bench = (balanceCheck: BalanceCheck | null) =>
    new Stage(anApp({ station: WEIGHED, balanceCheck })).screen({ columns: 120, rows: 24 });

  test("says whether the balance was checked this shift", () => {
    expect(bench(null)).toContain("balance not checked !");
    expect(bench(check("2026-11-23T22:00:00+01:00"))).toContain("balance ok 22:00");
    expect(bench(check("2026-11-23T21:59:00+01:00"))).toContain("balance check due !");
    expect(bench(check("2026-11-23T21:59:00+01:00", 501))).toContain("balance FAILED !");
  });
});
