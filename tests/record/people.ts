// The people of the invented plant, as operators.json holds them. Nobody's PIN is right here: the hash is of nothing.
import type { Operators, Person, Verifier } from "../../src/record/operators.ts";
import type { Role } from "../../src/record/roles.ts";

export const AT = "2026-11-24T08:00:00+01:00";
export const aVerifier: Verifier = {
  method: "scrypt",
  n: 1024,
  r: 8,
  p: 1,
  salt: "ab".repeat(16),
  hash: "cd".repeat(32),
};
export const another: Verifier = { ...aVerifier, hash: "ef".repeat(32) };

export const person = (initials: string, role: Role = "operator", change: Partial<Person> = {}): Person => ({
  initials,
  name: `${initials} of the invented plant`,
  role,
  state: "active",
  pin: aVerifier,
  pinSetAt: AT,
  ...change,
});

export const aList = (change: Partial<Operators> = {}): Operators => ({
  schema: "sievewright.operators/1",
  signOn: "required",
  idleMinutes: 10,
  people: [person("SB", "administrator"), person("ML", "quality"), person("KO")],
  tries: [],
  recovery: aVerifier,
  ...change,
});
