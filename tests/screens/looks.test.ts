import { describe, expect, test } from "vitest";
import { THEME_NAMES } from "../../src/record/screen.ts";
import { themeOf, withLook } from "../../src/screens/looks.ts";
import { ENGLISH } from "../../src/words/manner.ts";
import { anApp, Stage } from "./stage.ts";

describe("Ctrl+K", () => {
  test("goes through every theme and round again, in any place, and asks to have each remembered", () => {
    const stage = new Stage().types("n");
    const seen = THEME_NAMES.map(() => themeOf(stage.presses("ctrl+k").app));
    expect(seen.toSorted()).toEqual(THEME_NAMES.toSorted());
    expect(themeOf(stage.app)).toBe("dark");
    expect(stage.effects.filter(({ do: deed }) => deed === "keepTheme")).toHaveLength(THEME_NAMES.length);
    expect(stage.screen()).toContain("theme: dark");
    expect(stage.app.place.name).toBe("run");
  });

  test("changes nothing of what is typed, and F8 does the same", () => {
    const stage = new Stage().types("n").presses("enter").types("4471");
    const before = stage.app.place;
    expect(stage.presses("f8").app.place).toEqual(before);
    expect(themeOf(stage.app)).toBe("light");
  });
});

test("what was chosen last goes before what the screens begin with; an unreadable choice is told", () => {
  const look = { theme: "light", manner: ENGLISH, reader: true, problem: "screen.json can't be read" } as const;
  expect(withLook(anApp(), look)).toMatchObject({ theme: "light", reader: true, message: "screen.json can't be read" });
  expect(withLook(anApp(), undefined)).toEqual(anApp());
});
