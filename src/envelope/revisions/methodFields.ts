import type { Method } from "../../record/product.ts";
import type { ProductContent } from "../../record/productDraft.ts";
import { type Compare, field, unit, yesNo } from "./change.ts";

const method =
  <T>(of: (method: Method) => T | undefined) =>
  ({ method: there }: ProductContent): T | undefined =>
    there === undefined ? undefined : of(there);

const APERTURES: Readonly<Record<NonNullable<Method["apertures"]>, string>> = {
  nominal: "nominal apertures",
  certified: "certified apertures",
  effective: "effective apertures",
};

const panText = (pan: NonNullable<Method["pan"]>): string =>
  pan === "dropped" ? "dropped" : `counted as ${pan.sizeUm} um`;

/** How a product is tested and read, but for the rules by which the test itself is judged. */
export const METHOD_FIELDS: readonly Compare[] = [
  field(
    "method.basis",
    "method: basis",
    method((m) => m.basis),
    String,
    "recovered, not stated",
  ),
  field(
    "method.interpolation",
    "method: curve",
    method((m) => m.interpolation),
    String,
    "log-linear, not stated",
  ),
  field(
    "method.apertures",
    "method: curve drawn over",
    method((m) => m.apertures),
    (choice) => APERTURES[choice],
    "nominal apertures, not stated",
  ),
  field(
    "method.chargeG.min",
    "method: charge at least",
    method((m) => m.chargeG?.min),
    unit("g"),
  ),
  field(
    "method.chargeG.target",
    "method: charge about",
    method((m) => m.chargeG?.target),
    unit("g"),
  ),
  field(
    "method.chargeG.max",
    "method: charge at most",
    method((m) => m.chargeG?.max),
    unit("g"),
  ),
  field(
    "method.maxLossPct",
    "method: loss at most",
    method((m) => m.maxLossPct),
    unit("%"),
  ),
  field(
    "method.washed",
    "method: washed",
    method((m) => m.washed),
    yesNo,
    "no, not stated",
  ),
  field(
    "method.emptyMasses",
    "method: sieves weighed empty",
    method((m) => m.emptyMasses),
    String,
    "each test, not stated",
  ),
  field(
    "method.program",
    "method: program",
    method((m) => m.program),
  ),
  field(
    "method.endPoint",
    "method: end point in words",
    method((m) => m.endPoint),
    (words) => `"${words}"`,
  ),
  field(
    "method.interpolateMissing",
    "method: limits off the stack read from the curve",
    method((m) => m.interpolateMissing),
    yesNo,
    "no, not stated",
  ),
  field(
    "method.retest.ways",
    "method: tested again by",
    method((m) => m.retest?.ways),
    (ways) => ways.join(" or "),
  ),
  field(
    "method.retest.atMost",
    "method: tested again at most",
    method((m) => m.retest?.atMost),
    (times) => `${times} times`,
    "any",
  ),
  field(
    "method.retest.average",
    "method: the average decides",
    method((m) => m.retest?.average),
    yesNo,
    "no",
  ),
  field(
    "method.topUm",
    "method: top size",
    method((m) => m.topUm),
    unit("um"),
    "next of the series, not stated",
  ),
  field(
    "method.pan",
    "method: pan",
    method((m) => m.pan),
    panText,
    "half the finest aperture, not stated",
  ),
  field(
    "method.classMean",
    "method: size of a class",
    method((m) => m.classMean),
    String,
    "by the value, not stated",
  ),
  field(
    "method.fit",
    "method: model fits",
    method((m) => m.fit),
    String,
    "least-squares, not stated",
  ),
];
