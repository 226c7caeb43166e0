import { expect, test } from "vitest";
import { apertureText, massText, sizeText, valueText } from "../../src/report/figures.ts";
import { clockText, dayText, figure, momentText, shortDay, shortMoment } from "../../src/words/figures.ts";
import { mannerOf } from "../../src/words/manner.ts";
import { inManner } from "../../src/words/speaking.ts";

const AT = "2026-11-24T03:12:40+01:00";
const all = () => [figure("742.4"), dayText(AT), shortDay(AT), momentText(AT), shortMoment(AT), clockText(AT)];
const spokenIn = (station: Parameters<typeof mannerOf>[0], language: "en" | "de" | "es") =>
  inManner(mannerOf(station, language), all);

test("records and commands: a point, and days as ISO 8601 has them", () =>
  expect(all()).toEqual(["742.4", "2026-11-24", "11-24", "2026-11-24 03:12", "11-24 03:12", "03:12"]));

test("German and Spanish: a comma, and the day first, each with its own sign", () => {
  expect(spokenIn({}, "de")).toEqual(["742,4", "24.11.2026", "24.11", "24.11.2026 03:12", "24.11 03:12", "03:12"]);
  expect(spokenIn({}, "es")).toEqual(["742,4", "24/11/2026", "24/11", "24/11/2026 03:12", "24/11 03:12", "03:12"]);
});

test("what the station says goes before what the language has", () => {
  expect(spokenIn({ decimal: "point", screen: { dates: "year first" } }, "de")).toEqual(all());
  expect(spokenIn({ decimal: "comma", screen: { dates: "month first" } }, "en")[1]).toBe("11/24/2026");
});

test("moments are as wide in every order, so that columns stay where they are", () => {
  for (const dates of ["year first", "day first", "month first"] as const)
    for (const language of ["en", "de", "es"] as const)
      expect(spokenIn({ screen: { dates } }, language).map((text) => text.length)).toEqual(all().map((t) => t.length));
});

test("figures of results take the sign; there is one sign in a figure at most", () => {
  const shown = () => [
    apertureText(1400),
    sizeText(1190),
    massText(412.3),
    valueText({ determinable: true, value: 2.8149, unit: "1" }),
  ];
  expect(shown()).toEqual(["1.40 mm", "1.19 mm", "412.30", "2.81"]);
  expect(inManner(mannerOf({}, "de"), shown)).toEqual(["1,40 mm", "1,19 mm", "412,30", "2,81"]);
});
