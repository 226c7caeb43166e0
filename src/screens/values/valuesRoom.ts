import { assessTest } from "../../assess/assessTest.ts";
import { CHARACTERISTIC_VALUES } from "../../grading/values/table.ts";
import { valueText } from "../../report/figures.ts";
import { allValues, reasonText, type ShownValue } from "../../report/shown.ts";
import { valuePage } from "../../report/valuePage.ts";
import { pad } from "../../terminal/sanitise.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line, span, whereText, windowAround } from "../line.ts";
import { type App, leave, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { signOf } from "../words.ts";

/** Rows for what is told about the value in hand. */
const PAGE_ROWS = 10;
const LABEL_COLUMNS = 40;

function valueLine({ label, found, limit, words }: ShownValue, chosen: boolean): Line {
  const head = span(`${chosen ? " ▸ " : "   "}${pad(spoken(label), LABEL_COLUMNS)}`, chosen ? "strong" : "plain");
  const shown = found.determinable ? span(valueText(found), "strong") : span(`– ${reasonText(found.reason)}`, "dim");
  return [head, shown, span(words === "" ? "" : `  ${spoken(words)}`, "dim"), ...(limit ? [signOf(limit.result)] : [])];
}

function body(app: App, size: Size): readonly Line[] {
  const { test, at } = here(app, "values");
  const assessed = assessTest(test);
  if (!assessed.ok) return [line(`  ! ${spoken(assessed.reason)}`, "warning")];
  const values = allValues(assessed.value);
  const row = CHARACTERISTIC_VALUES[at];
  const { from, shown } = windowAround(values, at, Math.max(3, size.rows - PAGE_ROWS - 1));
  const told = row ? valuePage(row, values[at]?.found ?? null, size.columns - 4) : [];
  const list = shown.map((value, i) => valueLine(value, from + i === at));
  return [
    ...list,
    line(`── ${whereText(from, shown, values)} `.padEnd(size.columns, "─"), "dim"),
    ...told.map((text) => line(`  ${text}`)),
  ];
}

function move(app: App, by: number): Step {
  const place = here(app, "values");
  const last = CHARACTERISTIC_VALUES.length - 1;
  return step({ ...app, message: null, place: { ...place, at: Math.max(0, Math.min(last, place.at + by)) } });
}

export const VALUES_KEYS: readonly Binding[] = [
  { keys: ["up", "-"], word: "value", help: "The value above.", does: (app) => move(app, -1) },
  { keys: ["down", "+"], word: "value", help: "The value below.", does: (app) => move(app, 1), quiet: true },
  { keys: ["escape", "enter"], word: "back", help: "Back to the result.", does: (app) => step(leave(app)) },
];

/** Every characteristic value of a test, and for the one in hand: formula, convention, inputs, source. */
export const valuesRoom: Room = {
  title: (app) => {
    const { product, lot } = here(app, "values").test;
    return { left: say`values · ${product.code} · lot ${lot}`, right: [] };
  },
  body,
  keys: () => VALUES_KEYS,
  field: () => "none",
  typed: (app) => stay(app),
  erased: (app) => stay(app),
  scanned: (app) => stay(app),
  about: [
    "Every characteristic value of this test. A value that the test can't give says what it would need. Below the list",
    "stands what is told about the one in hand: its formula, the convention used, what it rests on, its source.",
  ],
};
