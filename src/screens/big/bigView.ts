import { isPractice } from "../../record/practice.ts";
import { wrapped } from "../../report/columns.ts";
import { apertureText, decimalsOf, massText, pctText } from "../../report/figures.ts";
import { columnOf, type Run } from "../../run/run.ts";
import { soFarOf } from "../../run/soFar.ts";
import { figure } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { BLANK, type Line, line, type Span, span } from "../line.ts";
import type { App, Size } from "../place.ts";
import { isSaved } from "../run/following.ts";
import { soFarSign } from "../run/soFarLimit.ts";
import { typedMass } from "../run/typedMass.ts";
import { blockRows, GLYPH_ROWS, scaleFor } from "./blocks.ts";

/** More has no room in block digits on a small window. */
const TYPED_COLUMNS = 8;

/** What is weighed and what stands there: the value being typed, with a cursor, else the mass accepted before. */
function inHand(run: Run): { readonly name: string; readonly shown: string } {
  const { draft, at, typed } = run;
  const decimals = decimalsOf(draft.balance.readabilityG);
  const row = draft.weighings[at];
  const standing = row?.[columnOf(draft.stage)] ?? null;
  const name = row ? apertureText(row.apertureUm) : "";
  return {
    name,
    shown:
      typed === "" ? (standing === null ? "_" : massText(standing, decimals)) : `${typedMass(run, TYPED_COLUMNS)}_`,
  };
}

/** Whether the last entry is safe, in words. */
function savedSpan(app: App, { draft }: Run): Span {
  if (draft.trail.length === 0) return span(say`nothing entered yet`, "dim");
  if (isPractice(draft)) return span(say`practice: not kept ◇`, "invalid");
  if (isSaved(app, draft)) return span(say`saved ✓`, "pass");
  return app.notOnDisk ? span(say`NOT ON DISK !`, "fail") : span(say`saving …`, "warning");
}

/** What the last mass made of its sieve. */
function lastSpans({ draft }: Run, columns: number): readonly Span[] {
  const last = draft.trail.findLast(({ field }) => field === "fullG");
  const row = soFarOf(draft).rows.find((r) => r.apertureUm === last?.apertureUm);
  if (!row || row.netG === null) return [];
  const decimals = decimalsOf(draft.balance.readabilityG);
  const [name, net] = [apertureText(row.apertureUm), massText(row.netG, decimals)];
  const passing = row.passingPct === null ? "" : say`, passing ${pctText(row.passingPct)} %`;
  const head = columns < 70 ? ` · ${name}` : say` · ${name} net ${net} g`;
  return [span(`${head}${passing}`), soFarSign(row)];
}

/** Doubts first, in full, then what is going on. */
function words(app: App, run: Run, columns: number): readonly Line[] {
  const doubted = run.doubt ? say`! ${spoken(run.doubt.text)}; Enter again accepts it, another mass replaces it` : null;
  const told = doubted ?? (run.message ? `! ${spoken(run.message)}` : null);
  const warned = told === null ? [] : wrapped(told, columns - 2).map((text) => line(` ${text}`, "warning"));
  const column = run.draft.stage === "weigh full" ? say`full, in g` : say`empty, in g`;
  return [...warned, [span(` ${column} · `, "strong"), savedSpan(app, run), ...lastSpans(run, columns)]];
}

/** @param widest how wide it may become: the figures must not change their size while one types */
const drawnText = (text: string, widest: string, size: Size, role: Span["role"]): readonly Line[] => {
  const scale = scaleFor(widest.length > text.length ? widest : text, size.columns - 2, size.rows);
  return scale === null ? [line(` ${text}`, role)] : blockRows(text, scale).map((row) => line(` ${row}`, role));
};

const widestName = ({ draft }: Run): string =>
  draft.weighings.map(({ apertureUm }) => apertureText(apertureUm)).reduce((a, b) => (b.length > a.length ? b : a), "");

/** Whether block digits are asked for and a mass is in hand. */
export const isBig = (app: App, { draft }: Run): boolean =>
  app.big === true && (draft.stage === "weigh empty" || draft.stage === "weigh full");

/** Weighing read from two metres: the sieve's name and the value in block figures, doubts and saving in words below. */
export function bigBody(app: App, run: Run, { columns, rows }: Size): Line[] {
  const { name, shown } = inHand(run);
  const told = words(app, run, columns);
  const room = rows - told.length - 1;
  const nameRows = room - GLYPH_ROWS >= GLYPH_ROWS ? Math.floor(room / 2) : 0;
  const above = drawnText(name, widestName(run), { columns, rows: nameRows }, "plain");
  const widest = figure(`000.${"0".repeat(decimalsOf(run.draft.balance.readabilityG))}_`);
  const value = drawnText(shown, widest, { columns, rows: room - above.length }, "strong");
  const spare = Math.max(0, room - above.length - value.length);
  const gap = Array.from({ length: Math.floor(spare / 2) }, () => BLANK);
  return [...above, BLANK, ...gap, ...value, ...gap, ...told].slice(0, rows);
}
