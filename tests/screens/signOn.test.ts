import { describe, expect, test } from "vitest";
import type { Role } from "../../src/record/roles.ts";
import type { App, Place } from "../../src/screens/place.ts";
import { gated, idledOff, mustSignOn, uncovered } from "../../src/screens/signOn/gate.ts";
import { NOBODY_LISTED, type PeopleShown, SIGN_ON } from "../../src/screens/signOn/people.ts";
import { Hands } from "../run/hands.ts";
import { anApp, Stage } from "./stage.ts";

const person = (initials: string, role: Role) => ({
  initials,
  name: `${initials} name`,
  role,
  state: "active" as const,
});
const LISTED: PeopleShown = {
  ...NOBODY_LISTED,
  rule: "required",
  known: true,
  list: [person("SB", "administrator"), person("KO", "operator")],
};
const session = { initials: "KO", name: "K. Orr", role: "operator" } as const;
const strict = (change: Partial<App> = {}) => anApp({ people: LISTED, ...change });
const asks = (stage: Stage) => stage.effects.flatMap((effect) => (effect.do === "people" ? [effect.ask] : []));
const onSignOn = (change: Partial<App> = {}) => new Stage(gated(strict(change)));

describe("the sign-on page", () => {
  test("takes initials, then the PIN, which shows as dots and nothing else", () => {
    const stage = onSignOn().enters("ko").types("190734");
    expect(stage.screen()).toContain("initials  ko");
    expect(stage.screen()).toContain("PIN       ••••••▌");
    expect(stage.screen()).not.toContain("190734");
    stage.presses("enter");
    expect(asks(stage)).toEqual([{ is: "sign on", who: { initials: "ko", pin: "190734" } }]);
    expect(stage.screen()).toContain("one moment ...");
  });

  test("corrects with Backspace, goes back with Esc, and forgets the PIN on the way", () => {
    const stage = onSignOn()
      .types("kx")
      .presses("backspace")
      .types("o")
      .presses("enter")
      .types("12")
      .presses("backspace");
    expect(stage.app.place).toMatchObject({ initials: "ko", field: "pin", pin: "1" });
    stage.presses("escape");
    expect(stage.app.place).toMatchObject({ field: "initials", pin: "" });
  });

  test("asks for what is missing", () => {
    const stage = onSignOn().presses("enter");
    expect(stage.screen()).toContain("type your initials");
    stage.enters("KO").presses("enter");
    expect(stage.screen()).toContain("type your PIN");
    expect(stage.effects).toEqual([]);
  });

  test("takes a badge or a PIN from a scanner as typed", () => {
    const stage = onSignOn().scans("KO").scans("190734");
    expect(asks(stage)).toEqual([{ is: "sign on", who: { initials: "KO", pin: "190734" } }]);
  });

  test("asks once, however often Enter is pressed, and types nothing meanwhile", () => {
    const stage = onSignOn().enters("KO").enters("190734").presses("enter", "enter").types("99");
    expect(asks(stage)).toHaveLength(1);
    expect(stage.app.place).toMatchObject({ busy: true, pin: "" });
  });

  test("is not left without signing on but by leaving the program", () => {
    const stage = onSignOn().presses("escape", "escape");
    expect(stage.app.place.name).toBe("signOn");
    expect(stage.screen()).toContain("sign on to go on");
    stage.presses("ctrl+c");
    expect(stage.effects).toEqual([{ do: "quit" }]);
  });

  test("shows the tests in work, and has its help", () => {
    const { draft } = new Hands().setsOut().run;
    const stage = onSignOn({ drafts: [draft] });
    expect(stage.screen()).toContain(`${draft.product.code} lot ${draft.lot}`);
    expect(stage.presses("f1").screen({ columns: 100, rows: 40 }).replace(/\s+/g, " ")).toContain(
      "sievewright operator recover --help",
    );
    expect(gated(stage.app)).toBe(stage.app);
  });
});

describe("while nobody is signed on who must be", () => {
  const run: Place = { name: "run", run: new Hands().setsOut().run, view: 0, writing: null };

  test("the sign-on page lies over whatever is there, which comes back as it was", () => {
    const before = strict({ place: run, behind: [{ name: "bench", at: 3 }] });
    const covered = gated(before);
    expect(covered.place).toEqual(SIGN_ON);
    const { place, behind } = uncovered(covered);
    expect({ place, behind }).toEqual({ place: before.place, behind: before.behind });
  });

  test("what an answer of the disk brings up comes to lie underneath, and only one sign-on page is there", () => {
    const covered = gated(strict());
    const answered = { ...covered, place: run, behind: [...covered.behind, covered.place] };
    const again = gated(answered);
    expect([...again.behind, again.place].map(({ name }) => name)).toEqual(["bench", "run", "signOn"]);
  });

  test("the pages about people are nobody else's to come back to", () => {
    const on: Place = { name: "operators", at: 0 };
    const form = {
      name: "operatorForm",
      form: "PIN",
      who: "KO",
      answers: ["471108"],
      typed: "",
      busy: false,
      code: null,
    };
    const covered = gated(strict({ place: form as Place, behind: [{ name: "bench", at: 0 }, on] }));
    expect(JSON.stringify(covered)).not.toContain("471108");
    expect(uncovered(covered)).toMatchObject({ place: { name: "bench" }, behind: [] });
  });

  test.each<[string, Partial<App>]>([
    ["nobody need sign on", { people: NOBODY_LISTED }],
    ["somebody is signed on", { session }],
    ["nothing can be recorded anyway", { readOnly: "the laptop next door has it" }],
    ["the list of people is gone", { people: { ...LISTED, trouble: "operators.json is gone" } }],
  ])("otherwise not: %s", (_why, change) => {
    const app = strict(change);
    expect(mustSignOn(app)).toBe(false);
    expect(gated(app)).toBe(app);
  });
});

describe("after some minutes without a key", () => {
  const touchedAt = "2026-11-24T03:12:00+01:00";
  const working = strict({ session, touchedAt });

  test.each([
    ["2026-11-24T03:21:59+01:00", false],
    ["2026-11-24T03:22:00+01:00", true],
    ["2026-11-24T08:00:00+01:00", true],
  ])("at %s: signed off is %s", (now, off) => {
    const idled = idledOff(working, now);
    expect(idled?.app.session ?? null).toEqual(null);
    expect(idled !== null).toBe(off);
    if (idled) {
      expect(idled.effects).toEqual([{ do: "people", ask: { is: "sign off", event: "idle" } }]);
      expect(idled.app.message).toBe("KO was signed off: no key for 10 min. All is as it was");
      expect(gated(idled.app).place.name).toBe("signOn");
    }
  });

  test("a clock set back begins the time anew rather than never ending it", () => {
    const back = idledOff(working, "2026-11-23T03:00:00+01:00");
    expect(back?.app).toMatchObject({ session, touchedAt: "2026-11-23T03:00:00+01:00" });
    expect(back?.effects).toEqual([]);
    expect(idledOff(back?.app ?? working, "2026-11-23T03:10:00+01:00")?.app.session).toBeNull();
  });

  test("nobody is signed off where nobody need sign on, nor while a recovery code is being copied", () => {
    const late = "2026-11-24T09:00:00+01:00";
    expect(idledOff({ ...working, people: NOBODY_LISTED }, late)).toBeNull();
    expect(idledOff({ ...working, session: null }, late)).toBeNull();
    const place: Place = {
      name: "operatorForm",
      form: "set up",
      who: "",
      answers: [],
      typed: "",
      busy: false,
      code: "X",
    };
    expect(idledOff({ ...working, place }, late)).toBeNull();
  });
});

describe("whoever is signed on", () => {
  test("stands on the bench with the role, and o hands over to the next", () => {
    const stage = new Stage(strict({ session }));
    expect(stage.lines()[0]).toContain("KO operator");
    stage.types("o");
    expect(stage.screen()).toContain("KO K. Orr is signed on");
    stage.presses("escape");
    expect(stage.app.place.name).toBe("bench");
  });

  test("signs off with F2", () => {
    const stage = new Stage(strict({ session })).types("o").presses("f2");
    expect(asks(stage)).toEqual([{ is: "sign off", event: "off" }]);
    expect(stage.app.session).toBeNull();
    expect(onSignOn().presses("f2").screen()).toContain("nobody is signed on");
  });

  test("signs a test with two Enters and types no initials; nobody else's can be put in their place", () => {
    const { run } = new Hands().tests();
    const stage = new Stage(strict({ session, operator: "ML", place: { name: "run", run, view: 0, writing: null } }));
    stage.presses("enter", "enter");
    expect(stage.screen()).toContain("signed by  KO");
    expect(stage.screen()).toContain("K. Orr");
    stage.types("ML");
    expect(stage.screen()).toContain("KO is signed on; o on the bench changes that");
    stage.presses("enter");
    expect(stage.effects.filter((effect) => effect.do === "record")).toMatchObject([{ by: "KO" }]);
  });

  test("signs the check of the balance", () => {
    const weights = [{ weight: "W500", nominalG: 500, toleranceG: 0.03 }];
    const app = strict({ session, operator: "ML" });
    const stage = new Stage({ ...app, station: { ...app.station, checkWeights: weights } });
    stage.types("b").enters("500").presses("enter");
    expect(stage.effects).toMatchObject([{ do: "recordCheck", check: { by: "KO" } }]);
  });
});

describe("a station without sign-on", () => {
  test("says so where a test is signed, and o names the way to change it", () => {
    const words = "initials are not checked by PIN at this station";
    const { run } = new Hands().tests();
    const stage = new Stage(anApp({ place: { name: "run", run, view: 0, writing: null } })).presses("enter");
    expect(stage.screen()).toContain(words);
    expect(new Stage().types("o").screen()).toContain(`${words}: a shows how to change that`);
  });
});
