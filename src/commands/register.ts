import { isRegisteredAs } from "../care/register/refusals.ts";
import { readRegisterItem } from "../record/readExchanged.ts";
import { itemName, type RegisterItem } from "../record/register.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { done, type Ending, EXIT, ended, faulty, reached, type Step } from "./ending.ts";
import { inputFile, inputName } from "./inputFile.ts";
import type { Io } from "./io.ts";
import { inStore, type ProductSignerOptions, type SignedStore } from "./productSigner.ts";
import { recordedEntry } from "./registerEntry.ts";

export interface RegisterOptions extends ProductSignerOptions {
  readonly reason?: string;
  readonly json?: boolean;
}

interface Registered {
  readonly registered: readonly string[];
  readonly unchanged: readonly string[];
}

const isSet = ({ schema }: RegisterItem): boolean => schema === "sievewright.stack/1";

/** All files are read before anything is recorded; sets come last, for they name sieves. */
async function itemsIn(names: readonly string[], io: Io): Promise<Step<readonly RegisterItem[]>> {
  const items: RegisterItem[] = [];
  for (const name of names) {
    const file = await inputFile(name, io);
    if (!file.ok) return file;
    const item = readRegisterItem(file.value);
    if (!item.ok) return ended(EXIT.badData, `${inputName(name)}: ${item.reason}`);
    items.push(item.value);
  }
  return reached([...items.filter((item) => !isSet(item)), ...items.filter(isSet)]);
}

async function allRegistered(
  signed: SignedStore,
  items: readonly RegisterItem[],
  { reason }: RegisterOptions,
  io: Io,
): Promise<Step<Registered>> {
  const [registered, unchanged]: [string[], string[]] = [[], []];
  for (const item of items) {
    if (isRegisteredAs(await signed.store.care.register(), item)) {
      unchanged.push(itemName(item));
      continue;
    }
    const told = { kind: "registered", item, ...(reason === undefined ? {} : { reason }) } as const;
    const entry = await recordedEntry(signed, told, io);
    if (!entry.ok) return registered.length === 0 ? entry : soFar(entry.ending, registered);
    registered.push(itemName(item));
  }
  return reached({ registered, unchanged });
}

/** What was registered before the fault stays: the log only grows. */
function soFar(ending: Ending, registered: readonly string[]): Step<never> {
  if (!("fault" in ending)) return { ok: false, ending };
  return ended(ending.code, `${ending.fault} (registered before it: ${registered.join(", ")})`);
}

/** `sievewright register FILE...`: sieves, sets, balances, check weights, reference materials, told to the log. */
export async function register(names: readonly string[], options: RegisterOptions, io: Io): Promise<Ending> {
  if (names.filter((name) => name === "-").length > 1)
    return faulty(EXIT.usage, "only one file can come from standard input");
  const items = await itemsIn(names, io);
  if (!items.ok) return items.ending;
  const made = await inStore(options, io, (signed) => allRegistered(signed, items.value, options, io));
  if (!made.ok) return made.ending;
  const { registered, unchanged } = made.value;
  if (options.json) return done(`${printedJson(made.value)}\n`);
  const lines = [
    ...registered.map((name) => `${name} registered`),
    ...unchanged.map((name) => `${name} is registered like this already`),
  ];
  return done(`${lines.join("\n")}\n`);
}
