import { dayInForce } from "../../record/dayInForce.ts";
import type { Product } from "../../record/product.ts";
import { productShelf } from "../../store/productShelf.ts";
import { dayText } from "../../words/figures.ts";
import { say } from "../../words/say.ts";
import type { App } from "../place.ts";

const dayOf = (app: App): string => dayInForce(app.now, app.station.dayBegins);

/** The screens with the revisions that are in force on their present day. */
export function withInForce(app: App): App {
  const shelf = productShelf(app.revisions);
  const productDay = dayOf(app);
  return { ...app, productDay, products: shelf.codes.flatMap((code) => shelf.inForce(code, productDay) ?? []) };
}

const cameIn = (before: readonly Product[], now: readonly Product[]): readonly Product[] =>
  now.filter((product) => !before.some((old) => old.code === product.code && old.revision === product.revision));

/** A new production day may bring revisions into force; tests in work keep the copy that they were set out with. */
export function followDay(app: App, now: string): App {
  const day = dayInForce(now, app.station.dayBegins);
  if (day === app.productDay || app.revisions.length === 0) return app;
  const next = withInForce({ ...app, now });
  const came = cameIn(app.products, next.products).map(({ code, revision }) => say`${code} revision ${revision}`);
  return came.length === 0 ? next : { ...next, message: say`from today in force: ${came.join(", ")}` };
}

const isInForce = (app: App, { code, revision }: Product): boolean =>
  app.products.find((product) => product.code === code)?.revision === revision;

/** Whether a revision is to come into force on a later day. */
export const isToCome = (app: App, product: Product): boolean =>
  !isInForce(app, product) && product.effective !== undefined && product.effective > dayOf(app);

/** How a revision stands on the present day, in words. */
export function standingWords(app: App, product: Product): string {
  if (isInForce(app, product)) return say`in force`;
  return isToCome(app, product) ? say`from ${dayText(product.effective ?? "")}` : say`replaced`;
}

export const today = dayOf;
