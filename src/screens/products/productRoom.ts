import { passingChart } from "../../chart/passingChart.ts";
import { limitsOf } from "../../envelope/limit.ts";
import { resolveRules } from "../../procedure/rules/resolve.ts";
import type { RuleSet } from "../../procedure/rules/ruleSet.ts";
import type { Product } from "../../record/product.ts";
import { apertureText } from "../../report/figures.ts";
import { envelopeOf } from "../../run/soFar.ts";
import { type Line, line, span } from "../line.ts";
import { type App, leave, type Size, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { limitText } from "../words.ts";

function limitLines(product: Product): Line[] {
  const limits = limitsOf(product);
  if (limits.length === 0) return [line("  no limits: tests of this product are assessed, not judged", "dim")];
  return limits.map((limit) => {
    const { on } = limit;
    const name =
      on.kind === "value"
        ? on.id
        : on.kind === "percentileUm"
          ? `d${on.passingPct} um`
          : `${on.kind.replace("Pct", " %")} at ${apertureText(on.apertureUm)}`;
    return [span(`  ${name.padEnd(30)}`), span(limitText(limit), "strong")];
  });
}

const ruleSetTitle = ({ title, edition }: RuleSet) => (edition === "" ? title : `${title}, ${edition}`);

function methodLines(product: Product): Line[] {
  const { basis, interpolation, chargeG, program } = product.method ?? {};
  const rules = resolveRules(product.method, product.method?.procedure);
  const charge = chargeG ? `charge ${limitText({ min: chargeG.min ?? null, max: chargeG.max ?? null })} g` : "";
  const words = [
    `percent of ${basis === "charge" ? "the charge" : "the recovered total"}`,
    `curve ${interpolation ?? "log-linear"}`,
    rules.maxLossPct === null ? "no limit on the loss" : `loss at most ${rules.maxLossPct.value} %`,
    program ? `program ${program}` : "",
    charge,
  ];
  const state = [
    product.effective ? `in force from ${product.effective}` : "in force at once",
    product.approvedBy ? `approved by ${product.approvedBy}` : "",
  ];
  return [
    line(`  ${state.filter((w) => w !== "").join(" · ")}`, "dim"),
    line(`  ${words.filter((w) => w !== "").join(" · ")}`, "dim"),
    ...(rules.ruleSet ? [line(`  tests checked by ${ruleSetTitle(rules.ruleSet)}`, "dim")] : []),
    line(
      `  stack ${product.stackUm
        .toSorted((a, b) => b - a)
        .map(apertureText)
        .join(", ")}, pan`,
      "dim",
    ),
  ];
}

function body(app: App, size: Size): readonly Line[] {
  const { product } = here(app, "product");
  const head = [...methodLines(product), [], ...limitLines(product), []];
  const envelope = envelopeOf(product);
  const rows = size.rows - head.length;
  if (envelope.length === 0 || rows < 6) return head.slice(0, size.rows);
  const drawn = passingChart({ points: [], envelope, passingAt: () => null, width: size.columns - 4, height: rows });
  return [...head, ...drawn.map((text) => line(`  ${text}`))];
}

export const PRODUCT_KEYS: readonly Binding[] = [
  { keys: ["escape", "enter"], word: "back", help: "Back to the products.", does: (app) => step(leave(app)) },
];

/** One product revision: its limits, its method, its envelope as a drawing. */
export const productRoom: Room = {
  title: (app) => {
    const { product } = here(app, "product");
    return { left: `${product.code} ${product.name}`, right: line(`revision ${product.revision}`) };
  },
  body,
  keys: () => PRODUCT_KEYS,
  field: () => "none",
  typed: (app) => stay(app),
  erased: (app) => stay(app),
  scanned: (app) => stay(app),
  about: [
    "One revision of a product: the limits of its envelope, how it is tested, and the envelope drawn as two curves.",
    "Both limits are inclusive; a value on the limit is within. Nothing is rounded first unless the product says so.",
  ],
};
