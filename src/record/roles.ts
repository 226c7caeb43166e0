/** Who somebody is at a station; what each may do stands in `permissions.ts`. */
export const ROLES = ["operator", "quality", "administrator"] as const;

/** Whether work at a station is signed for with a PIN, or with initials that nobody checks. */
export const SIGN_ON_RULES = ["required", "none"] as const;

/** How somebody came and went: signed on, signed off, signed off by the clock, kept out after wrong PINs. */
export const SIGN_ON_EVENTS = ["on", "off", "idle", "kept out"] as const;

export const OPERATOR_EVENTS = ["added", "role changed", "PIN set", "retired", "brought back", "recovered"] as const;

export type Role = (typeof ROLES)[number];
export type SignOnRule = (typeof SIGN_ON_RULES)[number];
export type SignOnEvent = (typeof SIGN_ON_EVENTS)[number];
export type OperatorEvent = (typeof OPERATOR_EVENTS)[number];
