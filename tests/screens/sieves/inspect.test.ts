import { describe, expect, test } from "vitest";
import { LOOKS } from "../../../src/record/care.ts";
import type { Role } from "../../../src/record/roles.ts";
import { bounceGuard } from "../../../src/screens/bounce.ts";
import { aperturesArrived } from "../../../src/screens/sieves/careAnswers.ts";
import type { Stage } from "../stage.ts";
import { atSieve, known, recorded, S710 } from "./world.ts";

const WIDE = { columns: 110, rows: 40 };
const flat = (stage: Stage): string => stage.screen(WIDE).replace(/\s+/g, " ");
const inspecting = (role?: Role) =>
  atSieve(known(), role ? { session: { initials: "KO", name: "K. Orr", role } } : {}).types("i");
const allGood = Object.fromEntries(LOOKS.map((look) => [look, "good"]));

describe("a guided inspection", () => {
  test("asks one look after another, with what to look for", () => {
    const stage = inspecting();
    for (const [i, look] of LOOKS.entries()) {
      const marked = stage.lines(WIDE).find((text) => text.startsWith("▸")) ?? "";
      expect(marked).toContain(look);
      expect(marked).toContain("g good   f faulty");
      stage.types(i === 2 ? "f" : "g");
    }
    expect(flat(stage)).toMatch(/light good ✓ wrinkles good ✓ tears FAULTY ✗ solder good ✓ seat good ✓/);
    expect(flat(stage)).toContain("Enter judges by eye alone");
  });

  test("by eye alone: the result is told before it is signed, and recorded with the looks", () => {
    const stage = inspecting().types("ggggg").presses("enter");
    expect(flat(stage)).toContain("result FIT ✓");
    expect(flat(stage)).toContain("no aperture was measured: judged by eye alone");
    stage.enters("after the night shift");
    expect(recorded(stage)).toEqual([]);
    expect(flat(stage)).toContain("signed by KO");
    stage.presses("enter", "enter");
    expect(recorded(stage)).toEqual([
      {
        kind: "care",
        by: "KO",
        care: { did: "inspection", serial: S710, looks: allGood, note: "after the night shift" },
      },
    ]);
  });

  test("a fault makes it not fit, and says what that means", () => {
    const stage = inspecting().types("ggfgg").presses("enter", "enter");
    expect(flat(stage)).toContain("result NOT FIT ✗");
    expect(flat(stage)).toContain("the cloth is torn or has loose wires");
    expect(flat(stage)).toContain("signed like this it is out of service");
  });

  test("measured apertures are judged as they come: mean against Y, largest against X, with the standing of both", () => {
    const stage = inspecting().types("ggggg").types("m");
    expect(flat(stage)).toContain("how many apertures the cloth has");
    stage.enters("16").enters("700").enters("720,5").enters("714");
    expect(flat(stage)).toMatch(/warp 3 711\.5 \+1\.5 ✓ 10\.5 720\.5 ✓/);
    expect(flat(stage)).toContain("to measure: 16 in each direction; read each to 6.17 um or finer");
    expect(flat(stage)).toMatch(
      /Y 24\.7 um either way for the mean, X 112\.3 um above for the largest \(computed; .*recalled/,
    );
    stage.types("u");
    expect(flat(stage)).toContain("taken: 700 720.5");
    stage.presses("enter").enters("900").presses("enter").enters("microscope").presses("enter");
    expect(flat(stage)).toContain("result NOT FIT ✗");
    expect(flat(stage)).toMatch(/mean along the weft 900\.0 um \(\+190\.0 um\), Y allows 24\.7 um either way/);
    expect(flat(stage)).toMatch(/weft 1 900\.0 \+190\.0 ✗ – 900\.0 ✗/);
    stage.presses("enter");
    expect(recorded(stage)).toMatchObject([
      {
        care: {
          looks: allGood,
          measured: { warpUm: [700, 720.5], weftUm: [900], inCloth: 16, instrument: "microscope" },
        },
      },
    ]);
  });

  test("too few measured is incomplete; how many cloth with more asks for is not made up", () => {
    const stage = inspecting().types("gggggm").enters("16").enters("711").presses("enter", "enter", "enter", "enter");
    expect(flat(stage)).toContain("result INCOMPLETE ?");
    expect(flat(stage)).toContain("1 of 16 measured along the warp");
    const large = inspecting().types("gggggm").types("5000").presses("enter");
    expect(flat(large)).toContain("take the number from the edition in force, it was not seen here");
  });

  test("refuses what is no aperture and no count, and takes nothing back where nothing was taken", () => {
    const stage = inspecting().types("gggggm").enters("1.5");
    expect(stage.app.message).toMatch(/whole number/);
    stage.presses("backspace", "backspace", "backspace", "enter").presses("enter");
    expect(stage.app.message).toMatch(/no aperture yet/);
    expect(stage.types("u").app.message).toMatch(/nothing was taken/);
    expect(stage.enters("0").app.message).toMatch(/more than 0 um/);
    expect(stage.app.place).toMatchObject({ warpUm: [] });
  });

  test("apertures are imported from a file", () => {
    const stage = inspecting().types("gggggi");
    expect(stage.screen()).toContain("warp_um,weft_um");
    stage.presses("enter");
    expect(stage.app.message).toMatch(/name the file/);
    stage.enters("a.csv");
    expect(stage.effects.at(-1)).toEqual({ do: "readApertures", path: "a.csv" });
    stage.app = aperturesArrived(stage.app, { path: "a.csv", warpUm: [711, 712], weftUm: [709] });
    expect(stage.app.message).toBe("a.csv: 2 apertures along the warp, 1 along the weft");
    stage.presses("enter", "enter", "enter");
    expect(recorded(stage)).toMatchObject([{ care: { measured: { warpUm: [711, 712], weftUm: [709] } } }]);
  });

  test("an operator looks; measuring is quality's", () => {
    const stage = inspecting("operator").types("ggggg");
    expect(stage.types("m").app.message).toMatch(/measure or repair a sieve takes somebody of quality/);
    expect(stage.types("i").app.message).toMatch(/takes somebody of quality/);
    expect(recorded(stage.presses("enter", "enter", "enter"))).toHaveLength(1);
  });

  test("Esc goes back step by step, losing nothing, and from the first look leaves", () => {
    const stage = inspecting().types("gggggm").enters("16").enters("711").presses("escape", "escape", "escape");
    expect(stage.app.place).toMatchObject({ step: "looks", warpUm: [711], inCloth: 16 });
    stage.types("g").presses("escape", "escape", "escape", "escape", "escape", "escape");
    expect(stage.app.place.name).toBe("sieve");
    expect(recorded(stage)).toEqual([]);
  });

  test("a bouncing Enter signs nothing", () => {
    const stage = inspecting().types("ggggg");
    const bounced = bounceGuard();
    expect(bounced(stage.app, { name: "enter" }, 0)).toBe(false);
    expect(bounced(stage.presses("enter").app, { name: "enter" }, 30)).toBe(true);
  });

  test("a scan while looking is no answer", () => {
    const stage = inspecting().scans(S710);
    expect(stage.app.place).toMatchObject({ name: "inspect", looks: {} });
  });
});

test.each([
  [60, 16],
  [80, 24],
])("every step fits %i x %i", (columns, rows) => {
  const stage = inspecting();
  const fits = () => {
    const lines = stage.lines({ columns, rows });
    expect(lines.length).toBeLessThan(rows);
    for (const text of lines) expect(text.length).toBeLessThanOrEqual(columns);
  };
  fits();
  for (const keys of ["fffff", "m"]) {
    stage.types(keys);
    fits();
  }
  for (const typed of ["16", "900.5", "", "905", "", "microscope", "a note"]) {
    stage.enters(typed);
    fits();
  }
  if (rows >= 24) expect(stage.screen({ columns, rows })).toContain("signed by");
});
