import { initials } from "../record/fields.ts";
import type { Store } from "../store/store.ts";
import { drawable } from "../terminal/sanitise.ts";
import { EXIT, ended, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";
import { openForWriting } from "./openForWriting.ts";
import type { SignerOptions } from "./signer.ts";
import { stationFolder } from "./stationFolder.ts";

/** Who does something with products, and at which station. */
export interface ProductSignerOptions extends SignerOptions {
  readonly by?: string;
  readonly data?: string;
}

const LONGEST_INITIALS = 8;

const loginName = ({ env }: Io): string =>
  drawable(env.USER ?? env.USERNAME ?? "").slice(0, LONGEST_INITIALS) || "unnamed";

/** The initials given, else the login name. */
export function initialsIn(options: Pick<ProductSignerOptions, "as" | "by">, io: Io): Step<string> {
  const by = initials.safeParse(options.as ?? options.by ?? loginName(io));
  if (by.success) return reached(by.data);
  return ended(EXIT.usage, `--by ${options.by ?? ""}: give your initials, at most ${LONGEST_INITIALS} characters`);
}

/** A store open for writing, with the initials of whoever is signed on, else of whoever says so. */
export interface SignedStore {
  readonly store: Store;
  readonly by: string;
}

/** Opens the store of a station that is there, does something in it, and closes it again, whatever came of it. */
export async function inStore<T>(
  options: ProductSignerOptions,
  io: Io,
  work: (signed: SignedStore) => Promise<Step<T>>,
): Promise<Step<T>> {
  const named = initialsIn(options, io);
  if (!named.ok) return named;
  const folder = await stationFolder(options.data, io);
  if (!folder.ok) return folder;
  const store = await openForWriting(folder.value, io, undefined, options);
  if (!store.ok) return store;
  try {
    return await work({ store: store.value, by: store.value.session?.initials ?? named.value });
  } finally {
    await store.value.close();
  }
}

/** How a command ends that the store refused: by the role, by the disk, or by what was asked. */
export function refusedBy(store: Store, reason: string): Step<never> {
  if (store.readOnly !== null) return ended(EXIT.ioError, reason);
  const permitted = store.operators.refusal("publish a product") === null;
  return ended(permitted ? EXIT.badData : EXIT.notPermitted, reason);
}
