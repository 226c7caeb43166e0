import { type ActName, mayDo, rolesFor } from "../../record/permissions.ts";
import type { Role } from "../../record/roles.ts";
import { permissionTable } from "../../report/permissionTable.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";

const ROLE_NAMES: Readonly<Record<Role, string>> = {
  operator: phrase("operator"),
  quality: phrase("quality"),
  administrator: phrase("administrator"),
};

/** The acts of the one table of permissions: here, so that each catalogue has them. */
const ACTS: Readonly<Record<ActName, string>> = {
  "record a test": phrase("record a test"),
  "check the balance": phrase("check the balance"),
  "write a note": phrase("write a note"),
  "end a test without a result": phrase("end a test without a result"),
  "open a hold": phrase("open a hold"),
  "log a change of the line": phrase("log a change of the line"),
  "hand the shift over": phrase("hand the shift over"),
  "correct a record": phrase("correct a record"),
  "clean, look over or quarantine": phrase("clean, look over or quarantine"),
  "measure or repair a sieve": phrase("measure or repair a sieve"),
  "return or retire a sieve": phrase("return or retire a sieve"),
  "register sieves and weights": phrase("register sieves and weights"),
  "close a hold": phrase("close a hold"),
  "void or reinstate a test": phrase("void or reinstate a test"),
  "waive an invalid test": phrase("waive an invalid test"),
  "freeze control limits": phrase("freeze control limits"),
  "publish a product": phrase("publish a product"),
  "load a program or stack": phrase("load a program or stack"),
  "manage operators": phrase("manage operators"),
  "change the station": phrase("change the station"),
  "make a backup": phrase("make a backup"),
  "restore a backup": phrase("restore a backup"),
};

export const roleShown = (role: Role): string => spoken(ROLE_NAMES[role]);

function asPerson(role: Role): string {
  switch (role) {
    case "operator":
      return say`an operator`;
    case "quality":
      return say`somebody of quality`;
    case "administrator":
      return say`an administrator`;
  }
}

/** Why a role may not do something, as `actRefusal` of the records says it; null when it may. */
export function actRefused(role: Role, act: ActName): string | null {
  if (mayDo(role, act)) return null;
  const who = rolesFor(act).map(asPerson).join(` ${say`or`} `);
  return say`to ${spoken(ACTS[act])} takes ${who}; you are signed on as ${roleShown(role)}`;
}

const isRole = (name: ActName | Role): name is Role => name in ROLE_NAMES;

/** What each role may do, as a table. */
export const permitLines = (): readonly string[] =>
  permissionTable((name) => (isRole(name) ? roleShown(name) : spoken(ACTS[name])));
