import { limitsOf } from "../../envelope/limit.ts";
import type { Product } from "../../record/product.ts";
import { say } from "../../words/say.ts";
import { apart, cells, type Line, line, span, whereLine, windowAround } from "../line.ts";
import { clearOrLeave, filtered, filterField, matches, moved } from "../list.ts";
import { type App, enter, leave, type ProductsPlace, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { listed } from "../sentences.ts";
import { revisionsOf } from "./diffRoom.ts";
import { importing, noSharedFolder } from "./importRoom.ts";
import { isToCome } from "./inForce.ts";
import { draftingOf } from "./productAnswers.ts";

/** Each product by the revision in force; one that is not in force yet by its first. */
function shownProducts(app: App, place: ProductsPlace): readonly Product[] {
  const codes = [...new Set(app.revisions.map(({ code }) => code))].sort();
  const shown = codes.flatMap((code) => app.products.find((p) => p.code === code) ?? revisionsOf(app, code)[0] ?? []);
  return shown.filter((p) => matches(place.filter, [p.code, p.name]));
}

/** "rev 3, 2 kept"; a draft or a revision to come goes before the count of those kept. */
function revisionText(app: App, { code, revision }: Product): string {
  const all = revisionsOf(app, code);
  const draft = draftingOf(app, code)?.draft.revision;
  const coming = all.find((one) => isToCome(app, one));
  if (draft !== undefined) return say`rev ${revision}, draft ${draft}`;
  if (coming) return say`rev ${revision}, ${coming.revision} coming`;
  return all.length > 1 ? say`rev ${revision}, ${all.length} kept` : say`rev ${revision}`;
}

function productLine(app: App, product: Product, chosen: boolean): Line {
  const [sieves, limits] = [product.stackUm.length, limitsOf(product).length];
  const [revision, holds] = [
    revisionText(app, product),
    limits === 0 ? say`${sieves} sieves, no limits` : say`${sieves} sieves, ${limits} limits`,
  ];
  const drawn = cells([
    { text: chosen ? "▸" : "", columns: 3, align: "left", role: "strong" },
    { text: product.code, columns: 12, role: chosen ? "strong" : "plain" },
    apart(product.name, 30),
    { text: revision, columns: 15 },
    { text: holds, columns: 20, role: "dim" },
  ]);
  return listed(drawn, chosen, product.code, [product.name, revision, holds]);
}

function body(app: App, size: Size): readonly Line[] {
  const place = here(app, "products");
  const products = shownProducts(app, place);
  const { from, shown } = windowAround(products, place.at, Math.max(1, size.rows - 3));
  const filter: Line = [span(`  ${say`find`} `, "dim"), span(`${place.filter}▌`, "field")];
  const none = products.length === 0 ? [line(say`    none; add one with: sievewright product add FILE`, "dim")] : [];
  return [
    filter,
    whereLine(from, shown, products),
    ...shown.map((p, i) => productLine(app, p, from + i === place.at)),
    ...none,
  ];
}

function move(app: App, by: number): Step {
  const place = here(app, "products");
  return step({ ...app, message: null, place: moved(place, by, shownProducts(app, place).length) });
}

function open(app: App): Step {
  const place = here(app, "products");
  const product = shownProducts(app, place)[place.at];
  return product ? step(enter(app, { name: "product", product })) : stay(app, say`nothing matches`);
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
    keys: ["f2", "ctrl+g"],
    word: "shared",
    help: "What the plant's shared folder has that is new here; from there it is loaded.",
    does: importing,
    refusal: noSharedFolder,
  },
  {
    keys: ["escape"],
    word: "back",
    help: "Clears the filter; without one, back to the bench.",
    does: (app) => clearOrLeave(app, here(app, "products"), leave(app)),
  },
];

/** The products of the library: the revision in force of each. */
export const productsRoom: Room = {
  title: () => ({ left: say`products`, right: line(say`type to find`, "dim") }),
  body,
  keys: () => PRODUCTS_KEYS,
  ...filterField(refilter, open),
  about: [
    "The products in this station's library, each in the revision that is in force on this production day.",
    "A product's page leads to its other revisions, to what changed, and to the draft of the next one.",
    "Revisions also come by sievewright product add FILE or from the plant's shared folder; older ones are kept and never changed.",
  ],
};
