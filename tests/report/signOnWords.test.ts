import { describe, expect, test } from "vitest";
import { PERMISSIONS } from "../../src/record/permissions.ts";
import { ROLES } from "../../src/record/roles.ts";
import { helpPage } from "../../src/report/helpPage.ts";
import { permissionTable } from "../../src/report/permissionTable.ts";
import { signedWords, signOnWords } from "../../src/report/signOnWords.ts";
import { subjectNamed } from "../../src/report/subject.ts";

describe("whether names were proven, in words", () => {
  test("of a station", () => {
    expect(signOnWords("none")).toBe("initials are not checked by PIN at this station");
    expect(signOnWords("required")).toBe("people sign on at this station with initials and PIN");
  });

  test("of an entry", () => {
    expect(signedWords({ by: "KO", signedOn: true })).toBe("signed KO with PIN");
    expect(signedWords({ by: "KO" })).toBe("signed KO, initials not checked by PIN");
  });
});

describe("the table of what each role may do", () => {
  const [heading = "", ...rows] = permissionTable();

  test("has a column for each role and a row for each act, in the order of the code's own table", () => {
    expect(heading.trim().split(/\s+/)).toEqual([...ROLES]);
    expect(rows.map((row) => row.slice(0, 34).trim())).toEqual(PERMISSIONS.map(({ act }) => act));
  });

  test("marks exactly who may", () => {
    for (const [i, { roles }] of PERMISSIONS.entries()) {
      const marks = (rows[i] ?? "").slice(34).trim().split(/\s+/);
      expect(marks).toEqual(ROLES.map((role) => ((roles as readonly string[]).includes(role) ? "✓" : "-")));
    }
  });

  test("stands in `help roles`, row under row, on 80 columns", () => {
    const subject = subjectNamed("roles");
    const page = subject.ok ? helpPage(subject.value, 80) : "";
    expect(page).toContain(permissionTable().join("\n"));
    for (const row of page.split("\n")) expect(row.length).toBeLessThanOrEqual(80);
  });
});
