import type { Care } from "../../record/care.ts";
import { actOf } from "../../record/permissions.ts";
import type { RegisterItem } from "../../record/register.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { actRefused } from "../operators/permits.ts";
import type { App } from "../place.ts";

/** Why nothing of this kind may be recorded here by whoever is signed on; null when it may. Spares typing for nothing. */
function refusal({ readOnly, people, session }: App, act: ReturnType<typeof actOf>): string | null {
  const trouble = readOnly ?? people.trouble;
  if (trouble !== null) return spoken(trouble);
  return act === null || session === null ? null : actRefused(session.role, act);
}

/** Why whoever is at the keys may not have this done on record. */
export const careRefusal = (app: App, care: Care): string | null =>
  refusal(app, actOf({ kind: "care", at: app.now, by: app.operator, care }));

/** Why whoever is at the keys may not register anything. */
export const registerRefusal = (app: App): string | null => refusal(app, "register sieves and weights");

/** Why this item may not be changed: what has no form is registered anew from its file. */
export const changeRefusal = (app: App, item: RegisterItem): string | null =>
  item.schema === "sievewright.referenceMaterial/1"
    ? say`${item.code} is registered anew from its file: F3, then file`
    : registerRefusal(app);
