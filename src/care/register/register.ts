import type { ReferenceMaterial, RegisteredBalance, RegisteredWeight } from "../../record/care.ts";
import type { RegisterItem } from "../../record/register.ts";
import type { Sieve, Stack } from "../../record/sieve.ts";

/** What a station sieves and weighs with, each as it was registered last. */
export interface Register {
  /** By aperture, the coarsest first, then by serial. */
  readonly sieves: readonly Sieve[];
  readonly sets: readonly Stack[];
  readonly balances: readonly RegisteredBalance[];
  readonly weights: readonly RegisteredWeight[];
  readonly materials: readonly ReferenceMaterial[];
}

const inOrder = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

const of = <S extends RegisterItem["schema"]>(items: readonly RegisterItem[], schema: S) =>
  items.filter((item): item is Extract<RegisterItem, { schema: S }> => item.schema === schema);

/** A register of these items, one revision of each. */
export function registerOf(items: readonly RegisterItem[]): Register {
  return {
    sieves: of(items, "sievewright.sieve/1").toSorted(
      (a, b) => b.apertureUm - a.apertureUm || inOrder(a.serial, b.serial),
    ),
    sets: of(items, "sievewright.stack/1").toSorted((a, b) => inOrder(a.code, b.code)),
    balances: of(items, "sievewright.balance/1").toSorted((a, b) => inOrder(a.id, b.id)),
    weights: of(items, "sievewright.checkWeight/1").toSorted((a, b) => b.nominalG - a.nominalG),
    materials: of(items, "sievewright.referenceMaterial/1").toSorted((a, b) => inOrder(a.code, b.code)),
  };
}

export const sieveOf = ({ sieves }: Register, serial: string): Sieve | undefined =>
  sieves.find((sieve) => sieve.serial === serial);

/** The sieves of a set that are registered, coarsest first. */
export function sievesOf(register: Register, { serials }: Stack): readonly Sieve[] {
  return serials.flatMap((serial) => sieveOf(register, serial) ?? []).toSorted((a, b) => b.apertureUm - a.apertureUm);
}

/** Sets that have a sieve of every aperture of a stack and none besides. */
export function setsFor(register: Register, stackUm: readonly number[]): readonly Stack[] {
  const wanted = stackUm.toSorted((a, b) => b - a).join();
  return register.sets.filter(
    (set) =>
      set.serials.every((serial) => sieveOf(register, serial)) &&
      sievesOf(register, set)
        .map(({ apertureUm }) => apertureUm)
        .join() === wanted,
  );
}
