import type { Grading, GradingChoices } from "../../../src/grading/grading.ts";
import { number } from "../../grading/values/valuesOf.ts";
import sand from "../examples/b-1000g-sand.json" with { type: "json" };
import one from "../examples/b-all-on-one-sieve.json" with { type: "json" };
import feed from "../examples/b-feed-fm.json" with { type: "json" };
import concrete from "../examples/b-pca-2-83.json" with { type: "json" };
import { mmToUm, stackOf } from "../fromExample.ts";
import type { PublishedCheck } from "../record.ts";

/** Apertures in use today behind 3/8 in., 4, 8, 14, 28, 48 and 100 mesh. */
const FEED_UM = [9500, 4750, 2360, 1180, 600, 300, 150];
const EXACT = 1e-12;

const modulus = (
  value: string,
  example: { source: string; status: string; expected: { fineness_modulus: number } },
  grading: Grading,
  choices: Partial<GradingChoices> = {},
): PublishedCheck => ({
  value,
  source: example.source,
  status: example.status as PublishedCheck["status"],
  published: example.expected.fineness_modulus,
  ours: number("finenessModulus", grading, choices),
  tolerance: EXACT,
});

const each = (cumulative: readonly number[]) => cumulative.map((pct, i) => pct - (cumulative[i - 1] ?? 0));

export const checks: PublishedCheck[] = [
  modulus(
    "fineness modulus, concrete sand",
    concrete,
    stackOf(mmToUm(concrete.inputs.aperture_mm), concrete.inputs.retained_pct, concrete.inputs.pan_pct),
  ),
  modulus("fineness modulus, 1000 g of sand", sand, stackOf(mmToUm(sand.inputs.aperture_mm), sand.inputs.net_g)),
  modulus("fineness modulus, all on 600 um", one, stackOf(mmToUm(one.inputs.aperture_mm), one.inputs.retained_pct)),
  modulus("fineness modulus, ground feed", feed, stackOf(FEED_UM, each(feed.inputs.cumulative_retained_pct), 4), {
    modulusSeries: "feed",
  }),
];
