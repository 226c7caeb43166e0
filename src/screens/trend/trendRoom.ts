import { signalsAt } from "../../report/trendDrawing.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, span } from "../line.ts";
import { type App, type Size, stay } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { CHART_KEYS } from "./chartKeys.ts";
import { chartBody } from "./chartPage.ts";
import { CURVES_KEYS, curvesBody } from "./curvesPage.ts";
import { KEEPING_KEYS, keepingBody, retypedKeeping, scannedKeeping } from "./keeping.ts";
import { LIMITS_KEYS, limitsBody } from "./limitsPage.ts";
import { LIST_KEYS, listBody, listField } from "./listPage.ts";
import { figureHere, looked } from "./looked.ts";
import type { TrendPage } from "./places.ts";
import { RULES_KEYS, rulesBody } from "./rulesPage.ts";
import { WORDS_KEYS, wordsBody } from "./wordsPage.ts";

interface Page {
  readonly words: string;
  readonly body: (app: App, size: Size) => readonly Line[];
  readonly keys: readonly Binding[];
}

const PAGES: Readonly<Record<TrendPage, Page>> = {
  chart: { words: "", body: chartBody, keys: CHART_KEYS },
  curves: { words: phrase("curves"), body: curvesBody, keys: CURVES_KEYS },
  limits: { words: phrase("all limits"), body: limitsBody, keys: LIMITS_KEYS },
  figures: { words: phrase("choose a figure"), body: listBody, keys: LIST_KEYS },
  products: { words: phrase("choose a product and line"), body: listBody, keys: LIST_KEYS },
  rules: { words: phrase("rules"), body: rulesBody, keys: RULES_KEYS },
  words: { words: phrase("in words"), body: wordsBody, keys: WORDS_KEYS },
};

const KEEPING: Page = { words: phrase("keep these limits"), body: keepingBody, keys: KEEPING_KEYS };

function pageOf(app: App): Page {
  const { page, keeping } = here(app, "trend");
  return keeping === null ? PAGES[page] : KEEPING;
}

const isList = (app: App): boolean => ["figures", "products"].includes(here(app, "trend").page);

/** How the newest test stands, in a word and a sign. */
function standing(app: App): Line {
  const chart = looked(app)?.chart;
  const segment = chart?.segments.at(-1);
  if (chart === undefined || segment === undefined) return [];
  if (!segment.limits.determinable) return [span(say`no control limits yet`, "dim")];
  const signals = signalsAt(chart, chart.points.length - 1);
  return signals.length > 0 ? [span(say`SIGNAL ◆`, "warning")] : [span(say`no signal ✓`, "pass")];
}

/** Trends: how one figure of a product runs on a line, and what is about to leave its limits. */
export const trendRoom: Room = {
  title: (app) => {
    const { product, line } = here(app, "trend");
    const words = pageOf(app).words;
    const about = [product, line ?? "", spoken(words === "" ? (figureHere(app)?.label ?? "") : words)];
    return { left: [say`trend`, ...about.filter((word) => word !== "")].join(" · "), right: standing(app) };
  },
  body: (app, size) => pageOf(app).body(app, size),
  keys: (app) => pageOf(app).keys,
  field: (app) => (here(app, "trend").keeping !== null ? "text" : isList(app) ? listField.field(app) : "none"),
  typed: (app, text) => {
    if (here(app, "trend").keeping !== null) return retypedKeeping(app, (old) => old + text);
    return isList(app) ? listField.typed(app, text) : stay(app);
  },
  erased: (app) => {
    if (here(app, "trend").keeping !== null) return retypedKeeping(app, (old) => old.slice(0, -1));
    return isList(app) ? listField.erased(app) : stay(app);
  },
  scanned: (app, text, ended, at) => {
    if (here(app, "trend").keeping !== null) return scannedKeeping(app, text, ended);
    return isList(app) ? listField.scanned(app, text, ended, at) : stay(app);
  },
  about: [
    "How one figure of a product runs on a line: each test with the centre line and control limits of the process, and the",
    "limits that the product allows, which are something else. A signal is a pattern that chance seldom makes; it says look,",
    "not that the product is bad. Limits come from the first tests after an adjustment of the line, or from a set that was",
    "frozen. The drift line tells in about how many tests a limit is reached, and nothing where the slope could be chance.",
  ],
};
