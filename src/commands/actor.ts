import { initials } from "../record/fields.ts";
import type { Store } from "../store/store.ts";
import { drawable } from "../terminal/sanitise.ts";
import type { Io } from "./io.ts";
import type { SignerOptions } from "./signer.ts";

const LONGEST_INITIALS = 8;

/** Whose name an entry bears that a command records: whoever is signed on, else who was named, else who is logged in here. */
export function actorOf(store: Store, { as }: SignerOptions, { env }: Io): string {
  const login = drawable(env.USER ?? env.USERNAME ?? "").slice(0, LONGEST_INITIALS);
  const named = initials.safeParse(as);
  return store.session?.initials ?? (named.success ? named.data : login || "unnamed");
}
