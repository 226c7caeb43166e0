import type { Tested } from "../../assess/assessTest.ts";
import type { Product } from "../../record/product.ts";
import type { LatestTests } from "../../store/latestTests.ts";
import { type App, enter, type Place, type Step, step } from "../place.ts";
import type { PlanPlace } from "./places.ts";

const USUAL_RISK_PCT = 5;

/** Into the plan of a product; from a test that has a result with its own curve first. */
export function planOn(app: App, product: Product, inHand: (Tested & { readonly lot: string }) | null = null): Step {
  const place: PlanPlace = {
    name: "plan",
    product,
    inHand,
    latest: null,
    from: inHand === null ? "newest tests" : "test in hand",
    riskPct: USUAL_RISK_PCT,
    chargeG: null,
    typed: "",
    at: 0,
  };
  return step(enter(app, place), { do: "readPlan", product: product.code });
}

/** The newest tests have been read; they arrive even while the operator looks at the help. */
export function planRead(app: App, product: string, latest: LatestTests): App {
  const taken = (place: Place): Place =>
    place.name === "plan" && place.product.code === product ? { ...place, latest } : place;
  return { ...app, place: taken(app.place), behind: app.behind.map(taken) };
}
