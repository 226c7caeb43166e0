import { sievesSuspectsPage } from "../report/sievesSuspectsPage.ts";
import type { Store } from "../store/store.ts";
import { readSuspects, type SuspectReading } from "../store/suspectReading.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { type Ending, EXIT, ended, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";
import { openForReading } from "./openForReading.ts";
import type { SievesOptions } from "./sievesRegister.ts";
import { textLook, textPage } from "./textPage.ts";

interface Looked {
  readonly readings: readonly SuspectReading[];
  /** Products of which nothing can be said, and why. */
  readonly without: readonly { readonly product: string; readonly reason: string }[];
}

async function lookedAt(store: Store, asked: string | undefined): Promise<Step<Looked>> {
  const { codes } = await store.products();
  if (asked !== undefined && !codes.includes(asked))
    return ended(EXIT.notFound, `product ${asked} is not in the library of ${store.folder}`);
  const [readings, without]: [SuspectReading[], { product: string; reason: string }[]] = [[], []];
  for (const product of asked === undefined ? codes : [asked]) {
    const read = await readSuspects(store, product);
    if (read.ok) readings.push(read.value);
    else without.push({ product, reason: read.reason });
  }
  return reached({ readings, without });
}

function page({ readings, without }: Looked, width: number): string {
  const pages = readings.map((reading) => sievesSuspectsPage(reading, width));
  const silent = without.map(({ product, reason }) => `${product}: ${reason}\n`).join("");
  const none = readings.length === 0 && without.length === 0 ? "no product is in the library\n" : "";
  const told = "It advises and never changes a result. How often it errs: docs/care-simulations.md\n";
  return [...pages, silent, none, told].filter((part) => part !== "").join("\n");
}

/** `sievewright sieves --suspects`: what routine tests say of the apertures of the sieves; changes nothing. */
export async function sievesSuspects({ product, json, data }: SievesOptions, io: Io): Promise<Ending> {
  const opened = await openForReading(data, io);
  if (!opened.ok) return opened.ending;
  const store = opened.value;
  try {
    const looked = await lookedAt(store, product);
    if (!looked.ok) return looked.ending;
    const look = textLook(io);
    const printed = json
      ? `${printedJson({ schema: "sievewright.suspects/1", ...looked.value })}\n`
      : textPage(page(looked.value, look.width), look);
    const problems = [...store.problems, ...looked.value.readings.flatMap(({ problem }) => problem ?? [])];
    return { code: EXIT.ok, out: printed, remark: () => (problems.length > 0 ? problems.join("; ") : null) };
  } finally {
    await store.close();
  }
}
