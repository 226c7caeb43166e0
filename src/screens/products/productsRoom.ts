import { limitsOf } from "../../envelope/limit.ts";
import type { Product } from "../../record/product.ts";
import { cells, type Line, line, span, windowAround } from "../line.ts";
import { clearOrLeave, filtered, filterField, matches, moved } from "../list.ts";
import { type App, enter, leave, type ProductsPlace, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";

const shownProducts = (app: App, place: ProductsPlace): readonly Product[] =>
  app.products.filter((p) => matches(place.filter, [p.code, p.name]));

function productLine(app: App, product: Product, chosen: boolean): Line {
  const all = app.revisions.filter((p) => p.code === product.code).length;
  const limits = limitsOf(product).length;
  return cells([
    { text: chosen ? "▸" : "", columns: 3, align: "left", role: "strong" },
    { text: product.code, columns: 12, role: chosen ? "strong" : "plain" },
    { text: product.name, columns: 30 },
    { text: `rev ${product.revision}${all > 1 ? `, ${all} kept` : ""}`, columns: 15 },
    {
      text: `${product.stackUm.length} sieves, ${limits === 0 ? "no limits" : `${limits} limits`}`,
      columns: 20,
      role: "dim",
    },
  ]);
}

function body(app: App, size: Size): readonly Line[] {
  const place = here(app, "products");
  const products = shownProducts(app, place);
  const { from, shown } = windowAround(products, place.at, Math.max(1, size.rows - 3));
  const filter: Line = [span("  find ", "dim"), span(`${place.filter}▌`, "field")];
  const none = products.length === 0 ? [line("    none; add one with: sievewright product add FILE", "dim")] : [];
  return [filter, [], ...shown.map((p, i) => productLine(app, p, from + i === place.at)), ...none].slice(0, size.rows);
}

function move(app: App, by: number): Step {
  const place = here(app, "products");
  return step({ ...app, message: null, place: moved(place, by, shownProducts(app, place).length) });
}

function open(app: App): Step {
  const place = here(app, "products");
  const product = shownProducts(app, place)[place.at];
  return product ? step(enter(app, { name: "product", product })) : stay(app, "nothing matches");
}

const refilter = (app: App, change: (filter: string) => string): Step => {
  const place = here(app, "products");
  return step({ ...app, message: null, place: filtered(place, change(place.filter)) });
};

export const PRODUCTS_KEYS: readonly Binding[] = [
  { keys: ["enter"], word: "open", help: "The product's envelope and method.", does: open },
  { keys: ["up"], word: "row", help: "The mark one row up.", does: (app) => move(app, -1) },
  { keys: ["down"], word: "row", help: "The mark one row down.", does: (app) => move(app, 1), quiet: true },
  {
    keys: ["escape"],
    word: "back",
    help: "Clears the filter; without one, back to the bench.",
    does: (app) => clearOrLeave(app, here(app, "products"), leave(app)),
  },
];

/** The products of the library: the revision in force of each. */
export const productsRoom: Room = {
  title: () => ({ left: "products", right: line("type to find", "dim") }),
  body,
  keys: () => PRODUCTS_KEYS,
  ...filterField(refilter, open),
  about: [
    "The products in this station's library, each in the revision that is in force today. New revisions are added with",
    "sievewright product add FILE; older ones are kept and never changed.",
  ],
};
