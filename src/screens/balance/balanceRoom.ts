import { readingOf } from "../../entry/reading.ts";
import { isWithinTolerance } from "../../procedure/balance/balanceState.ts";
import type { BalanceCheck } from "../../record/checks.ts";
import type { CheckWeight } from "../../record/station.ts";
import { wrapped } from "../../report/columns.ts";
import { decimalsOf, massText } from "../../report/figures.ts";
import { figure } from "../../words/figures.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { cells, type Line, line, span } from "../line.ts";
import { type App, type BalancePlace, leave, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { initialsOf } from "../sign/initials.ts";

const weightsOf = (app: App): readonly CheckWeight[] => app.station.checkWeights ?? [];

/** Once every weight has been read, who checked is asked. */
const signing = (app: App): boolean => here(app, "balance").readG.length >= weightsOf(app).length;

function weightLine(app: App, weight: CheckWeight, row: number): Line {
  const { readG, typed } = here(app, "balance");
  const decimals = decimalsOf(app.station.balances[0]?.readabilityG ?? 0.01);
  const read = readG[row];
  const current = row === readG.length;
  const within = read !== undefined && isWithinTolerance({ ...weight, readG: read });
  const sign = read === undefined ? span("") : within ? span(say`  within ✓`, "pass") : span(say`  OFF ✗`, "fail");
  return [
    ...cells([
      { text: current ? "▸" : "", columns: 3, align: "right", role: "strong" },
      { text: ` ${weight.weight}`, columns: 12 },
      { text: `${massText(weight.nominalG, decimals)} g`, columns: 14, align: "right" },
      { text: `± ${figure(`${weight.toleranceG}`)} g`, columns: 14, align: "right", role: "dim" },
    ]),
    span(
      current ? `   ${typed}▌` : read === undefined ? "" : `   ${massText(read, decimals)} g`,
      current ? "field" : "plain",
    ),
    sign,
  ];
}

/** A reading that is off may be the dust under it: how to weigh again, before anything is recorded. */
function offLines(app: App, columns: number): Line[] {
  const { readG } = here(app, "balance");
  const off = weightsOf(app).filter((weight, row) => {
    const read = readG[row];
    return read !== undefined && !isWithinTolerance({ ...weight, readG: read });
  });
  if (off.length === 0) return [];
  const which = off.map(({ weight }) => weight).join(", ");
  const again = say`! ${which} off: clean pan and weight, zero; F4 takes a reading back to weigh again`;
  const signed = line(say`    signed as it is, the check has failed: the balance is not to be used`, "fail");
  const told = wrapped(again, columns - 3, "  ").map((row) => line(`  ${row}`, "fail"));
  return [[], ...told, ...(signing(app) ? [signed] : [])];
}

const CONDITION_ROLES = { fit: "dim", due: "warning", overdue: "fail", "not known": "dim" } as const;

/** What the register says of the balance and its weights: whether their calibration is relied on still. */
function registered({ care }: App): Line[] {
  if (care === undefined) return [];
  const { balances, weights } = care.conditions;
  const told = [
    ...balances.map(({ id, state, text }) => ({ what: say`balance ${id}`, state, text })),
    ...weights.map(({ weight, state, text }) => ({ what: weight, state, text })),
  ];
  const lines = told.map(({ what, state, text }) =>
    line(`  ${what}: ${spoken(text)}${state === "overdue" || state === "due" ? " !" : ""}`, CONDITION_ROLES[state]),
  );
  return lines.length === 0 ? [] : [[], ...lines];
}

const FIRST = phrase("balance level, clean, warm and at zero; then each weight in turn, with clean hands or the fork");

function body(app: App, size: Size): readonly Line[] {
  const { typed } = here(app, "balance");
  const signer: Line[] = signing(app)
    ? [[], [span(say`  checked by  `, "strong"), span(`${initialsOf(app, typed)}▌`, "field")]]
    : [];
  return [
    [],
    ...wrapped(spoken(FIRST), size.columns - 4).map((row) => line(`  ${row}`)),
    [],
    ...weightsOf(app).map((weight, row) => weightLine(app, weight, row)),
    ...offLines(app, size.columns),
    ...signer,
    ...registered(app),
  ];
}

const retyped = (app: App, typed: string): Step =>
  step({ ...app, message: null, place: { ...here(app, "balance"), typed: typed.slice(0, 40) } });

function readingTaken(app: App, place: BalancePlace): Step {
  const grams = readingOf(place.typed, app.station.scanner?.balance).massG;
  if (!grams.ok) return stay(app, grams.reason);
  return step({ ...app, message: null, place: { ...place, readG: [...place.readG, grams.value], typed: "" } });
}

function signed(app: App, place: BalancePlace, at: string): Step {
  const by = initialsOf(app, place.typed);
  if (by === "" || by.length > 8) return stay(app, say`sign with your initials, at most 8 characters`);
  const readings = weightsOf(app).map((weight, row) => ({ ...weight, readG: place.readG[row] ?? 0 }));
  const check: BalanceCheck = { at, balance: app.station.balances[0]?.id ?? "B1", by, readings };
  return step({ ...app, message: say`recording ...` }, { do: "recordCheck", check });
}

function accepted(app: App, at: string): Step {
  const place = here(app, "balance");
  return signing(app) ? signed(app, place, at) : readingTaken(app, place);
}

function lastBack(app: App): Step {
  const place = here(app, "balance");
  return step({ ...app, message: null, place: { ...place, readG: place.readG.slice(0, -1), typed: "" } });
}

export const BALANCE_KEYS: readonly Binding[] = [
  { keys: ["enter"], word: "accept", help: "Take the reading typed; then sign.", does: accepted },
  {
    keys: ["f4", "ctrl+z", "u"],
    word: "undo",
    help: "Take the last reading back (F4 while signing).",
    does: lastBack,
  },
  { keys: ["escape"], word: "back", help: "Back to the bench; nothing is recorded.", does: (app) => step(leave(app)) },
];

/** The check of the balance before use: each weight put on, what the balance shows, who checked. */
export const balanceRoom: Room = {
  title: (app) => ({ left: say`balance check · ${app.station.balances[0]?.id ?? ""}`, right: [] }),
  body,
  keys: () => BALANCE_KEYS,
  field: (app) => (signing(app) ? "text" : "number"),
  typed: (app, text) => retyped(app, here(app, "balance").typed + text),
  erased: (app) => retyped(app, here(app, "balance").typed.slice(0, -1)),
  scanned: (app, text, ended, at) => {
    // What was refused is replaced by the next reading.
    const typing = retyped(app, (app.message === null ? here(app, "balance").typed : "") + text);
    return ended ? accepted(typing.app, at) : typing;
  },
  about: [
    "The balance before use: each check weight in turn. A reading further off than the weight's tolerance fails the",
    "check; a failed balance must not be used until it has been put right and checked again. The record keeps every",
    "reading. A product may require the check: its tests are then not checked, or invalid, without it.",
  ],
};
