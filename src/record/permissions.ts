import type { NewEntry } from "./logEntry.ts";
import { ROLES, type Role } from "./roles.ts";

/**
 * What each role may do: the one table, from which the store refuses, and which the manual shows. Nobody edits or removes
 * a record, so there is no row for it.
 */
export const PERMISSIONS = [
  { act: "record a test", roles: ["operator", "quality", "administrator"] },
  { act: "check the balance", roles: ["operator", "quality", "administrator"] },
  { act: "write a note", roles: ["operator", "quality", "administrator"] },
  { act: "end a test without a result", roles: ["operator", "quality", "administrator"] },
  { act: "open a hold", roles: ["operator", "quality", "administrator"] },
  { act: "log a change of the line", roles: ["operator", "quality", "administrator"] },
  { act: "hand the shift over", roles: ["operator", "quality", "administrator"] },
  { act: "correct a record", roles: ["operator", "quality", "administrator"] },
  { act: "clean, look over or quarantine", roles: ["operator", "quality", "administrator"] },
  { act: "measure or repair a sieve", roles: ["quality"] },
  { act: "return or retire a sieve", roles: ["quality"] },
  { act: "register sieves and weights", roles: ["quality"] },
  { act: "close a hold", roles: ["quality"] },
  { act: "void or reinstate a test", roles: ["quality"] },
  { act: "waive an invalid test", roles: ["quality"] },
  { act: "freeze control limits", roles: ["quality"] },
  { act: "publish a product", roles: ["quality"] },
  { act: "load a program or stack", roles: ["quality"] },
  { act: "manage operators", roles: ["administrator"] },
  { act: "change the station", roles: ["administrator"] },
  { act: "make a backup", roles: ["operator", "quality", "administrator"] },
  { act: "restore a backup", roles: ["administrator"] },
] as const satisfies readonly { act: string; roles: readonly Role[] }[];

export type ActName = (typeof PERMISSIONS)[number]["act"];

/** The roles that may do something, in the order of ROLES. */
export const rolesFor = (act: ActName): readonly Role[] => {
  const allowed: readonly Role[] = PERMISSIONS.find((row) => row.act === act)?.roles ?? [];
  return ROLES.filter((role) => allowed.includes(role));
};

export const mayDo = (role: Role, act: ActName): boolean => rolesFor(act).includes(role);

/** Why a role may not do something, in words; null when it may. */
export const actRefusal = (role: Role, act: ActName): string | null =>
  mayDo(role, act) ? null : `to ${act} takes ${whoMay(act)}; you are signed on as ${role}`;

const AS_PERSON: Readonly<Record<Role, string>> = {
  operator: "an operator",
  quality: "somebody of quality",
  administrator: "an administrator",
};

const whoMay = (act: ActName): string =>
  rolesFor(act)
    .map((role) => AS_PERSON[role])
    .join(" or ");

/**
 * To leave "hold", to release by correction, and to take a test that is out of limits from its lot are all ways of letting
 * a lot go that was kept back.
 */
function correctionAct({ changes, signed }: Extract<NewEntry, { kind: "correction" }>): ActName {
  const letsGo = changes.some(
    (c) => c.field === "disposition" && (c.to === "release" || (c.from === "hold" && c.to !== "hold")),
  );
  const out = signed.product === "fail" || signed.product === "borderline";
  const leavesLot = out && changes.some((c) => c.field === "lot");
  return letsGo || leavesLot ? "close a hold" : "correct a record";
}

/** To look is everybody's; whatever says that a sieve is right, or is right again, is not. */
function careAct({ care }: Extract<NewEntry, { kind: "care" }>): ActName {
  switch (care.did) {
    case "cleaning":
    case "quarantine":
      return "clean, look over or quarantine";
    case "inspection":
      return care.measured === undefined ? "clean, look over or quarantine" : "measure or repair a sieve";
    case "repair":
    case "reference check":
      return "measure or repair a sieve";
    case "return to service":
    case "retirement":
      return "return or retire a sieve";
  }
}

/** What somebody does by having an entry recorded; null for what the program notes of itself. */
export function actOf(entry: NewEntry): ActName | null {
  switch (entry.kind) {
    case "test":
      return "record a test";
    case "balance check":
      return "check the balance";
    case "note":
      return "write a note";
    case "test ended":
      return "end a test without a result";
    case "correction":
      return correctionAct(entry);
    case "voided":
    case "reinstated":
      return "void or reinstate a test";
    case "waived":
      return "waive an invalid test";
    case "product loaded":
    case "product published":
      return "publish a product";
    case "program loaded":
      return "load a program or stack";
    case "operator":
      return "manage operators";
    case "station declared":
      return "change the station";
    case "backup":
      return "make a backup";
    case "restored":
      return "restore a backup";
    case "hold opened":
      return "open a hold";
    case "hold closed":
      return "close a hold";
    case "line adjusted":
      return "log a change of the line";
    case "handover":
    case "handover taken":
      return "hand the shift over";
    case "care":
      return careAct(entry);
    case "registered":
      return "register sieves and weights";
    case "limits frozen":
      return "freeze control limits";
    case "sign-on":
    case "finding":
    case "clock set":
      return null;
  }
}
