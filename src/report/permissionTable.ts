import { type ActName, PERMISSIONS, rolesFor } from "../record/permissions.ts";
import { ROLES, type Role } from "../record/roles.ts";
import { SIGNS } from "../terminal/signs.ts";

const ACT_COLUMNS = 34;
const ROLE_COLUMNS = 15;

/** The table of what each role may do, drawn from the one that the store refuses by; acts and roles as they are named. */
export function permissionTable(named: (name: ActName | Role) => string = (name) => name): string[] {
  const heading = " ".repeat(ACT_COLUMNS) + ROLES.map((role) => named(role).padEnd(ROLE_COLUMNS)).join("");
  const rows = PERMISSIONS.map(({ act }) => {
    const allowed = rolesFor(act);
    const signs = ROLES.map((role) => (allowed.includes(role) ? SIGNS.pass : "-").padEnd(ROLE_COLUMNS)).join("");
    return (named(act).padEnd(ACT_COLUMNS) + signs).trimEnd();
  });
  return [heading.trimEnd(), ...rows];
}
