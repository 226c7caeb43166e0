import { passingChart } from "../../chart/passingChart.ts";
import { type LimitOn, limitName, limitsOf } from "../../envelope/limit.ts";
import { envelopeOf } from "../../envelope/passingBounds.ts";
import { resolveRules } from "../../procedure/rules/resolve.ts";
import type { RuleSet } from "../../procedure/rules/ruleSet.ts";
import type { Interpolation, Product } from "../../record/product.ts";
import { SAME_HANDS, sameHands } from "../../record/productDraft.ts";
import { CHOICE_WORDS } from "../../report/apertureWords.ts";
import { wrapped } from "../../report/columns.ts";
import { apertureText } from "../../report/figures.ts";
import { nominalText } from "../../series/apertureText.ts";
import { figureWords } from "../../shift/trendFigure.ts";
import { pad } from "../../terminal/sanitise.ts";
import { dayText, figure } from "../../words/figures.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { shareOf } from "../envelope/shares.ts";
import { type Line, line, span, unsaid } from "../line.ts";
import type { App, Size } from "../place.ts";
import { here } from "../room.ts";
import { initialsOf } from "../sign/initials.ts";
import { limitText } from "../words.ts";
import { draftingOf } from "./productAnswers.ts";

const LABEL_COLUMNS = 30;

/** What a limit is put on: "passing 500 um", or the name of a value. */
const limitShown = (on: LimitOn): string =>
  "apertureUm" in on ? shareOf(on.kind, figure(nominalText(on.apertureUm))) : spoken(figureWords(limitName(on)).label);

function limitLines(product: Product): Line[] {
  const limits = limitsOf(product);
  if (limits.length === 0) return [line(say`  no limits: tests of this product are assessed, not judged`, "dim")];
  return limits.map((limit) => {
    const { unit } = figureWords(limitName(limit.on));
    const bounds = [spoken(limitText(limit)), unit === "1" ? "" : unit].filter((word) => word !== "").join(" ");
    return [span(`  ${pad(limitShown(limit.on), LABEL_COLUMNS)}`), span(bounds, "strong")];
  });
}

const CURVES: Readonly<Record<Interpolation, string>> = {
  "log-linear": phrase("log-linear"),
  linear: phrase("linear"),
  "log-probability": phrase("log-probability"),
  monotone: phrase("monotone"),
};

const ruleSetTitle = ({ title, edition }: RuleSet) => (edition === "" ? title : `${title}, ${edition}`);

const folded = (text: string, columns: number): Line[] =>
  wrapped(text, columns - 4, "  ").map((part) => line(`  ${part}`, "dim"));

const joined = (words: readonly string[], columns: number): Line[] =>
  folded(words.filter((w) => w !== "").join(" · "), columns);

/** Since when a revision holds, who wrote it, who let it go, and why there is one. */
function controlLines(product: Product, columns: number): Line[] {
  const { effective, author, approvedBy, reason } = product;
  const state = [
    effective ? say`in force from ${dayText(effective)}` : say`in force at once`,
    author ? say`written by ${author}` : "",
    approvedBy ? say`approved by ${approvedBy}` : "",
  ];
  return [
    ...joined(state, columns),
    ...(reason === undefined ? [] : folded(say`because: ${reason}`, columns)),
    ...(sameHands(product) ? [line(`  ! ${spoken(SAME_HANDS)}`, "warning")] : []),
  ];
}

function methodLines(product: Product, columns: number): Line[] {
  const { basis, interpolation, apertures = "nominal", chargeG, program, emptyMasses } = product.method ?? {};
  const rules = resolveRules(product.method, product.method?.procedure);
  const bounds = chargeG && spoken(limitText({ min: chargeG.min ?? null, max: chargeG.max ?? null }));
  const stack = product.stackUm.toSorted((a, b) => b - a).map(apertureText);
  return [
    ...joined(
      [
        basis === "charge" ? say`percent of the charge` : say`percent of the recovered total`,
        say`curve ${spoken(CURVES[interpolation ?? "log-linear"])}`,
        apertures === "nominal" ? "" : say`over ${spoken(CHOICE_WORDS[apertures])}`,
        rules.maxLossPct === null ? say`no limit on the loss` : say`loss at most ${rules.maxLossPct.value} %`,
        program ? say`program ${program}` : "",
        emptyMasses === "each shift" ? say`sieves weighed empty each shift` : "",
        bounds ? say`charge ${bounds} g` : "",
      ],
      columns,
    ),
    ...(rules.ruleSet ? folded(say`tests checked by ${spoken(ruleSetTitle(rules.ruleSet))}`, columns) : []),
    ...folded(say`stack ${stack.join(", ")}, pan`, columns),
  ];
}

function draftLines(app: App, { code }: Product): Line[] {
  const draft = draftingOf(app, code)?.draft;
  if (draft === undefined) return [];
  return [
    line(
      say`  draft of revision ${draft.revision} by ${draft.author} since ${dayText(draft.since)}: e edits, p publishes, d discards`,
      "strong",
    ),
  ];
}

function askedLine(app: App): Line[] {
  const { drafting } = here(app, "product");
  if (drafting === undefined || drafting === null) return [];
  return [[span(say`  who writes the next revision? `, "strong"), span(`${initialsOf(app, drafting)}▌`, "field")]];
}

/** One revision: who and when, how it is tested, its limits, its envelope as a drawing. */
export function productBody(app: App, size: Size): readonly Line[] {
  const { product } = here(app, "product");
  const top = [...askedLine(app), ...controlLines(product, size.columns), ...draftLines(app, product)];
  const head = [...top, ...methodLines(product, size.columns), [], ...limitLines(product), []];
  const envelope = envelopeOf(product);
  const rows = size.rows - head.length;
  if (envelope.length === 0 || rows < 6) return head;
  const drawn = passingChart({ points: [], envelope, passingAt: () => null, width: size.columns - 4, height: rows });
  return [...head, ...drawn.map((text) => unsaid(line(`  ${text}`)))];
}
