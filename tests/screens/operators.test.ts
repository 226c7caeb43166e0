import { describe, expect, test } from "vitest";
import { PERMISSIONS } from "../../src/record/permissions.ts";
import { ROLES, type Role } from "../../src/record/roles.ts";
import { formFor } from "../../src/screens/operators/formRoom.ts";
import { roleTyped } from "../../src/screens/operators/forms.ts";
import type { App } from "../../src/screens/place.ts";
import { NOBODY_LISTED, type PeopleShown } from "../../src/screens/signOn/people.ts";
import { anApp, Stage } from "./stage.ts";

const person = (initials: string, role: Role, state: "active" | "retired" = "active") => ({
  initials,
  name: `${initials} name`,
  role,
  state,
});
const LISTED: PeopleShown = {
  ...NOBODY_LISTED,
  rule: "required",
  known: true,
  list: [person("SB", "administrator"), person("KO", "operator"), person("ML", "quality", "retired")],
};
const signedOn = (initials: string, role: Role) => ({ initials, name: `${initials} name`, role });
const at = (change: Partial<App> = {}) =>
  new Stage(anApp({ people: LISTED, session: signedOn("SB", "administrator"), ...change })).types("a");
const asks = (stage: Stage) => stage.effects.flatMap((effect) => (effect.do === "people" ? [effect.ask] : []));

describe("the people of a station", () => {
  test("are listed with role and state", () => {
    const screen = at().screen();
    expect(screen).toContain("people sign on at this station with initials and PIN");
    expect(screen).toContain("signed off after 10 min without a key");
    expect(screen).toMatch(/▸ {2}SB +SB name +administrator/);
    expect(screen).toMatch(/ML +ML name +quality +retired/);
  });

  test("where there is no list: known initials, and n sets sign-on up", () => {
    const stage = at({ people: NOBODY_LISTED, session: null });
    expect(stage.screen()).toContain("initials are not checked by PIN at this station");
    expect(stage.screen()).toContain("known initials: KO K. Orr");
    expect(stage.types("r").screen()).toContain("sign-on has not been set up: n does that");
    stage.types("n").enters("SB").enters("S. Baro").enters("471108").enters("471108");
    expect(asks(stage)).toEqual([{ is: "set up", first: { initials: "SB", name: "S. Baro", pin: "471108" } }]);
  });

  test("a weak PIN is refused at once; a PIN that differs is typed anew from an empty field", () => {
    const stage = at().types("n").enters("AN").enters("A. New").enters("2").enters("1234");
    expect(stage.app.message).not.toBe(null);
    expect(stage.app.place).toMatchObject({ answers: ["AN", "A. New", "2"], typed: "" });
    stage.enters("556102").enters("556103");
    expect(stage.app.message).toContain("the two differ");
    expect(stage.app.place).toMatchObject({ answers: ["AN", "A. New", "2", "556102"], typed: "" });
    expect(asks(stage.enters("556102"))).toHaveLength(1);
  });

  test("the recovery code page says all at 80 columns and offers only Enter and help", () => {
    const place = { ...formFor("set up"), code: "ABCD-EFGH" };
    const screen = new Stage(anApp({ place })).screen();
    expect(screen.replace(/\s+/g, " ")).toContain(
      "an administrator in whose PIN is lost: sievewright operator recover --help",
    );
    expect(screen).toMatch(/Enter written down +F1 help/);
  });

  test("are added: initials, name, role, PIN twice; the PIN shows as dots", () => {
    const stage = at().types("n").enters("AN").enters("A. New").enters("2").enters("556102");
    expect(stage.screen()).toContain("••••••");
    expect(stage.screen()).not.toContain("556102");
    stage.enters("556103");
    expect(stage.screen()).toContain("the two differ");
    for (let i = 0; i < 6; i += 1) stage.presses("backspace");
    stage.enters("556102");
    const change = { event: "added", initials: "AN", name: "A. New", role: "quality", pin: "556102", reason: "" };
    expect(asks(stage)).toEqual([{ is: "change", change }]);
    expect(stage.presses("enter").effects).toHaveLength(1);
  });

  test("have their role changed with a reason, are retired and brought back", () => {
    const role = at().presses("down").types("r").enters("3").enters("covers for SB");
    expect(asks(role)).toEqual([
      {
        is: "change",
        change: { event: "role changed", initials: "KO", role: "administrator", reason: "covers for SB" },
      },
    ]);
    const standing = (downs: number) => {
      const stage = at();
      for (let i = 0; i < downs; i += 1) stage.presses("down");
      return asks(stage.types("x").enters("moved on"));
    };
    expect(standing(1)).toMatchObject([{ change: { event: "retired", initials: "KO", reason: "moved on" } }]);
    expect(standing(2)).toMatchObject([{ change: { event: "brought back", initials: "ML" } }]);
  });

  test("have a new PIN set; an operator sets only their own", () => {
    const own = at({ session: signedOn("KO", "operator") });
    expect(own.types("p").screen()).toContain("to manage operators takes an administrator");
    own.presses("down").types("p").enters("556102").enters("556102");
    expect(asks(own)).toEqual([
      { is: "change", change: { event: "PIN set", initials: "KO", pin: "556102", reason: "" } },
    ]);
  });

  test.each(["n", "r", "x", "i"])("%s is an administrator's", (key) => {
    for (const role of ["operator", "quality"] as const) {
      const stage = at({ session: signedOn("KO", role) }).types(key);
      expect(stage.app.place.name).toBe("operators");
      expect(stage.screen({ columns: 120, rows: 40 })).toContain(`you are signed on as ${role}`);
    }
  });

  test("t declares sign-on off with an administrator's PIN, or on again", () => {
    const off = at().types("t").presses("enter").enters("471108").enters("trial over");
    const who = { initials: "SB", pin: "471108" };
    expect(asks(off)).toEqual([{ is: "declare", rule: "none", who, reason: "trial over" }]);
    const on = at({ people: { ...LISTED, rule: "none" }, session: null })
      .types("t")
      .enters("SB")
      .enters("471108");
    expect(asks(on.presses("enter"))).toEqual([{ is: "declare", rule: "required", who, reason: "" }]);
  });

  test("i sets the minutes without a key", () => {
    const stage = at().types("i").enters("soon");
    expect(stage.screen()).toContain("minutes are a whole number");
    for (let i = 0; i < 4; i += 1) stage.presses("backspace");
    expect(asks(stage.enters("25"))).toEqual([{ is: "idle", minutes: 25 }]);
  });

  test("are not changed where nothing can be recorded", () => {
    const stage = at({ readOnly: "the laptop next door has it" });
    for (const key of "nrpxti") expect(stage.types(key).screen()).toContain("the laptop next door has it");
    expect(stage.app.place.name).toBe("operators");
  });
});

describe("a form", () => {
  test("goes back a question with Esc, and a PIN is typed anew", () => {
    const stage = at().types("n").enters("AN").enters("A. New").enters("1").enters("556102").presses("escape");
    expect(stage.app.place).toMatchObject({ answers: ["AN", "A. New", "1"], typed: "" });
    stage.presses("escape");
    expect(stage.app.place).toMatchObject({ answers: ["AN", "A. New"], typed: "1" });
    stage.presses("escape", "escape", "escape");
    expect(stage.app.place.name).toBe("operators");
  });

  test("asks again for what is missing or is no role", () => {
    const stage = at().types("n").presses("enter");
    expect(stage.screen()).toContain("type: initials");
    stage.enters("AN").enters("A. New").enters("boss");
    expect(stage.screen()).toContain("a role is operator, quality, administrator: type its number");
    expect(stage.effects).toEqual([]);
  });

  test("with the recovery code stays till Enter", () => {
    const form = { name: "operatorForm", form: "set up", who: "", answers: [], typed: "", busy: false } as const;
    const stage = at();
    stage.app = { ...stage.app, place: { ...form, code: "ABCD-EFGH-JKMN-PQRS-TVWX" }, behind: [stage.app.place] };
    stage.types("zz").presses("escape");
    expect(stage.screen()).toContain("ABCD-EFGH-JKMN-PQRS-TVWX");
    expect(stage.screen()).toContain("write the recovery code down, then Enter");
    stage.presses("enter");
    expect(stage.app.place.name).toBe("operators");
    expect(stage.screen()).not.toContain("ABCD-EFGH");
  });

  test.each([
    ["1", "operator"],
    ["3", "administrator"],
    ["qual", "quality"],
    [" Administrator ", "administrator"],
    ["0", null],
    ["4", null],
    ["", null],
    ["boss", null],
  ])("a role typed as %j is %s", (typed, role) => expect(roleTyped(typed)).toBe(role));
});

test("the help page shows the table of what each role may do, every row of it", () => {
  const screen = at().types("?").screen({ columns: 100, rows: 60 });
  for (const { act, roles } of PERMISSIONS) {
    const row = screen.split("\n").find((text) => text.trim().startsWith(act)) ?? "";
    expect(row.split("✓").length - 1).toBe(roles.length);
  }
  for (const role of ROLES) expect(screen).toContain(role);
});

test.each([
  [80, 24],
  [60, 16],
])("every page about people fits %i x %i", (columns, rows) => {
  const pages = [at(), at().types("n"), at({ people: NOBODY_LISTED, session: null }), at().types("?")];
  for (const stage of pages) {
    const lines = stage.lines({ columns, rows });
    expect(lines.length).toBeLessThan(rows);
    for (const text of lines) expect(text.length).toBeLessThanOrEqual(columns);
  }
});
