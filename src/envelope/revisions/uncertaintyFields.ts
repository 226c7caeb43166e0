import type { ProductContent } from "../../record/productDraft.ts";
import type { Uncertainty } from "../../record/uncertainty.ts";
import { type Compare, field, unit } from "./change.ts";

const said = <T>(
  name: string,
  label: string,
  of: (there: Uncertainty) => T | undefined,
  show: (there: T) => string,
  unset = "none",
) =>
  field(
    `uncertainty.${name}`,
    `uncertainty: ${label}`,
    ({ uncertainty }: ProductContent): T | undefined => (uncertainty === undefined ? undefined : of(uncertainty)),
    show,
    unset,
  );

type Sampling = NonNullable<Uncertainty["sampling"]>;

function samplingText(sampling: Sampling): string {
  if ("sdPctAt50" in sampling) return `sd ${sampling.sdPctAt50} % passing at 50 %`;
  const { sampleG, lotG, grouping } = sampling;
  const lot = lotG === undefined ? "" : ` of a lot of ${lotG} g`;
  const sample = `of a sample of ${sampleG} g${lot}`;
  return grouping === undefined ? sample : [sample, `grouping ${grouping}`].join(", ");
}

const APERTURES = { series: "within the tolerance of the series", none: "exact" } as const;

/** What a product says of how sure its results are. */
export const UNCERTAINTY_FIELDS: readonly Compare[] = [
  said(
    "off",
    "not counted",
    (there) => there.off,
    (ids) => (ids.length === 0 ? "nothing" : ids.join(", ")),
  ),
  said("sampling", "sampling", (there) => there.sampling, samplingText),
  said(
    "remainderPct",
    "may still pass",
    (there) => there.remainderPct,
    unit("% of the charge"),
    "what a check minute moved",
  ),
  said("dustShare", "chance that loss is dust", (there) => there.dustShare, String, "0.5, not stated"),
  said(
    "apertures",
    "sieves without a certificate",
    (there) => there.apertures,
    (how) => APERTURES[how] ?? String(how),
    "within the tolerance of the series, not stated",
  ),
];
