import type { Scanned } from "../../record/scanner.ts";
import { say } from "../../words/say.ts";
import { benchItems } from "../bench/items.ts";
import { type App, enter, type Step, stay, step } from "../place.ts";
import { lotTest, newTest } from "../run/taking.ts";
import { sieveNamed, toSieve, toSieves } from "../sieves/reach.ts";
import { SIGN_ON } from "../signOn/people.ts";

const same = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();

/** A test of the lot in work is pointed at; else one is set out, with the lot in its field and nothing accepted yet. */
function lot(app: App, text: string, at: string): Step {
  const row = benchItems(app).findIndex((item) => item.kind === "draft" && same(item.draft.lot, text));
  if (row >= 0)
    return stay({ ...app, place: { name: "bench", at: row } }, say`lot ${text} is in work: Enter takes its test up`);
  return app.readOnly === null ? lotTest(app, at, text) : stay(app, app.readOnly);
}

function product(app: App, text: string, at: string): Step {
  const named = app.products.find(({ code }) => same(code, text));
  if (named === undefined) return stay(app, say`no product of this library has the code ${text}`);
  return app.readOnly === null ? newTest(app, at, named) : stay(app, app.readOnly);
}

function sieve(app: App, text: string): Step {
  const named = sieveNamed(app, text);
  return named ? toSieve(app, named.serial) : stay(app, say`no sieve of the register is called ${text}`);
}

/** The set's sieves, in the list of what is registered. */
function set(app: App, text: string): Step {
  const there = toSieves(app);
  const { place } = there.app;
  return place.name === "sieves" ? { ...there, app: { ...there.app, place: { ...place, filter: text } } } : there;
}

const operator = (app: App, text: string): Step =>
  app.people.rule === "required" && app.readOnly === null
    ? step(enter(app, { ...SIGN_ON, initials: text.slice(0, 8) }))
    : stay(app, say`${text} is scanned as an operator: that is asked when something is signed`);

/** A scan on the bench that says what it is: it leads to where that is looked at or tested, and records nothing. */
export function scannedOnBench(
  app: App,
  { of, text }: { readonly of: Scanned; readonly text: string },
  at: string,
): Step {
  switch (of) {
    case "lot":
      return lot(app, text, at);
    case "product":
      return product(app, text, at);
    case "sieve":
      return sieve(app, text);
    case "set":
      return set(app, text);
    case "operator":
      return operator(app, text);
    case "line":
    case "samplingPoint":
      return stay(app, say`${text} is asked for when a test is set out: n begins one`);
  }
}
