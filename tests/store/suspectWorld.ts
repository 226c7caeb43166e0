// Simulated sand on a registered set of sieves, as tests recorded by a station.
import type { StackTest } from "../../src/care/effective/tests.ts";
import type { NewEntry } from "../../src/record/logEntry.ts";
import type { Product } from "../../src/record/product.ts";
import type { RegisterItem } from "../../src/record/register.ts";
import { chanceFrom } from "../care/simulation/chance.ts";
import { MATERIALS } from "../care/simulation/materials.ts";
import { routineTests } from "../care/simulation/sieving.ts";
import { registered } from "./careWorld.ts";
import { testRecord } from "./records.ts";

const [material] = MATERIALS;
if (material === undefined) throw new Error("no material to simulate");
export const SAND = material;
export const SAND_PRODUCT: Product = {
  schema: "sievewright.product/1",
  code: "TH-SIM",
  name: "simulated sand (invented)",
  revision: 1,
  stackUm: [...SAND.stackUm],
};
export const SAND_SERIALS = SAND.stackUm.map((um) => `S-${um}`);
export const OFF_UM = 355;

const items: readonly RegisterItem[] = [
  ...SAND.stackUm.map(
    (apertureUm) => ({ schema: "sievewright.sieve/1", serial: `S-${apertureUm}`, apertureUm }) as const,
  ),
  { schema: "sievewright.stack/1", code: "SET-SIM", name: "simulated", serials: SAND_SERIALS },
];
/** All sieves and their set. */
export const sandRegister = (): NewEntry[] =>
  items.map((item) => registered(item, undefined, "2025-12-01T08:00:00+01:00"));

/** So many tests with every sieve as it is called, but one whose apertures are wider by a part; times go on from a number. */
export const sandTests = (tests: number, wider: number, seed: number): readonly StackTest[] =>
  routineTests(
    SAND,
    SAND.stackUm.map((um) => (um === OFF_UM ? um * (1 + wider) : um)),
    tests,
    chanceFrom(seed),
  );

const cents = (massG: number): number => Math.round(massG * 100) / 100;

/** A simulated test as it is recorded, so many days after the first. */
export function sandEntry({ sieves }: StackTest, k: number): NewEntry {
  const at = new Date(Date.UTC(2026, 0, 1, 8) + k * 3 * 3_600_000).toISOString().replace(".000Z", "+00:00");
  const weighings = [...sieves, { apertureUm: 0, passingPct: 0 }].map(({ apertureUm, passingPct }, i) => {
    const heldPct = (sieves[i - 1]?.passingPct ?? 100) - passingPct;
    const serial = apertureUm === 0 ? {} : { serial: `S-${apertureUm}` };
    return { apertureUm, ...serial, emptyG: 400 + i, fullG: cents(400 + i + (heldPct / 100) * SAND.chargeG) };
  });
  const test = { ...testRecord(`sim-${k}`, at), product: SAND_PRODUCT, chargeG: SAND.chargeG, weighings };
  return { kind: "test", at, by: "KO", test: { ...test, set: "SET-SIM" } };
}
