import { randomBytes, randomInt, scrypt, timingSafeEqual } from "node:crypto";
import { promisify } from "node:util";
import type { Verifier } from "../record/operators.ts";

const derive = promisify<string, Buffer, number, { N: number; r: number; p: number; maxmem: number }, Buffer>(scrypt);

/** What each try costs; a verifier carries its own. */
export type PinCost = Pick<Verifier, "n" | "r" | "p">;
/** About a tenth of a second and 32 MiB on a plant's laptop. */
export const USUAL_COST: PinCost = { n: 2 ** 15, r: 8, p: 1 };
const SALT_BYTES = 16;
const HASH_BYTES = 32;

/** The same characters however a keyboard puts them together. */
const hashOf = (secret: string, { n, r, p, salt }: Omit<Verifier, "hash">): Promise<Buffer> =>
  derive(secret.normalize("NFC"), Buffer.from(salt, "hex"), HASH_BYTES, { N: n, r, p, maxmem: 256 * n * r });

/** What is kept of a PIN or a code: its scrypt hash with a salt of its own. */
export async function verifierOf(secret: string, cost: PinCost): Promise<Verifier> {
  const salted = { method: "scrypt", ...cost, salt: randomBytes(SALT_BYTES).toString("hex") } as const;
  return { ...salted, hash: (await hashOf(secret, salted)).toString("hex") };
}

export async function isRight(secret: string, verifier: Verifier): Promise<boolean> {
  return timingSafeEqual(await hashOf(secret, verifier), Buffer.from(verifier.hash, "hex"));
}

/** Stands in for a person who isn't there, so that the answer takes as long as for one who is. */
export const nobodyAt = (cost: PinCost): Verifier => ({
  method: "scrypt",
  ...cost,
  salt: "0".repeat(32),
  hash: "0".repeat(64),
});

/** Without those that are mistaken for one another on paper: 0 and O, 1, I and L, U and V. */
const CODE_CHARACTERS = "23456789ABCDEFGHJKMNPQRSTVWXYZ";
const GROUPS = 5;
const GROUP_CHARACTERS = 4;

/** A new recovery code, to be written down: 20 characters of 30, 98 bits. */
export const newRecoveryCode = (): string =>
  Array.from({ length: GROUPS }, () =>
    Array.from({ length: GROUP_CHARACTERS }, () => CODE_CHARACTERS[randomInt(CODE_CHARACTERS.length)]).join(""),
  ).join("-");

/** A code as it was made, however it is typed from paper. */
export const codeAsMade = (typed: string): string =>
  (
    typed
      .toUpperCase()
      .replace(/[^0-9A-Z]/g, "")
      .match(/.{1,4}/g) ?? []
  ).join("-");
