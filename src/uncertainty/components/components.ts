import { COMPONENT_IDS, type ComponentId, type Conditions } from "../conditions.ts";
import type { Graded } from "../graded.ts";
import { apertures } from "./apertures.ts";
import { drift, linearity, readability, repeatability } from "./balance.ts";
import { type Component, causesOf, notIncluded } from "./component.ts";
import { endPoint } from "./endPoint.ts";
import { grains } from "./grains.ts";
import { loss } from "./loss.ts";
import { sampling } from "./sampling.ts";

/** Makes a component; `before` are those above it in the list. */
type Made = (graded: Graded, conditions: Conditions, before: readonly Component[]) => Component;

const ofBalance =
  (id: ComponentId, made: (graded: Graded, balance: NonNullable<Conditions["balance"]>) => Component): Made =>
  (graded, { balance }) =>
    balance ? made(graded, balance) : notIncluded(id, "nothing is known of the balance");

const MADE: Readonly<Record<ComponentId, Made>> = {
  readability: ofBalance("readability", readability),
  repeatability: ofBalance("repeatability", repeatability),
  linearity: ofBalance("linearity", linearity),
  drift: ofBalance("drift", drift),
  loss: (graded, conditions, ofBalance) => loss(graded, causesOf(ofBalance), conditions.loss?.dustShare),
  apertures: (graded, conditions) => apertures(graded, conditions.apertures),
  grains,
  sampling,
  endPoint: (graded, conditions) => endPoint(graded, conditions.endPoint),
};

/** All sources of uncertainty of a test, in their order: each with its causes, or with the reason why it is left out. */
export function componentsOf(graded: Graded, conditions: Conditions): Component[] {
  const made: Component[] = [];
  for (const id of COMPONENT_IDS) {
    const off = conditions.off?.includes(id);
    made.push(off ? notIncluded(id, "switched off by the product") : MADE[id](graded, conditions, made));
  }
  return made;
}

/** The covariance matrix of the masses in g2 (order of `Masses`), row by row: sum over all causes of `b b'`. */
export function massCovariance(components: readonly Component[], count: number): Float64Array {
  const covariance = new Float64Array(count * count);
  for (const { byMassG } of causesOf(components)) {
    for (let at = 0; at < covariance.length; at++) {
      const product = (byMassG[Math.floor(at / count)] ?? 0) * (byMassG[at % count] ?? 0);
      covariance[at] = (covariance[at] ?? 0) + product;
    }
  }
  return covariance;
}

/** Standard uncertainty of each mass in g, all components together: the root of the covariance matrix's diagonal. */
export function massUncertainties(components: readonly Component[], count: number): Float64Array {
  const squares = new Float64Array(count);
  for (const { byMassG } of causesOf(components)) {
    for (let j = 0; j < count; j++) squares[j] = (squares[j] ?? 0) + (byMassG[j] ?? 0) ** 2;
  }
  return squares.map(Math.sqrt);
}
