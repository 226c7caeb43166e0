import { checkHistory } from "../care/reference/history.ts";
import { sieveOf } from "../care/register/register.ts";
import { sieveLifePage } from "../report/sieveLifePage.ts";
import { lifeTold } from "../store/careReading.ts";
import type { Store } from "../store/store.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { type Ending, EXIT, ended, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";
import { openForReading } from "./openForReading.ts";
import { stationNow } from "./stationClock.ts";
import { type TextLook, textLook, textPage } from "./textPage.ts";

export interface SieveShowOptions {
  readonly json?: boolean;
  readonly data?: string;
}

async function told(store: Store, serial: string, json: boolean, today: string, look: TextLook): Promise<Step<string>> {
  const known = await store.care.known(today);
  const sieve = sieveOf(known.register, serial);
  const condition = known.conditions.sieves.find((one) => one.serial === serial);
  const reading = await store.care.reading(serial);
  if (sieve === undefined || condition === undefined || reading === null)
    return ended(EXIT.notFound, `${serial} is no registered sieve: sievewright sieves lists them`);
  const life = await lifeTold(store, sieve);
  const { life: ever } = reading;
  if (json) {
    const { checks, ...told } = life;
    const byMaterial = checkHistory(serial, checks);
    return reached(`${printedJson({ day: today, sieve, condition, life: ever, told, byMaterial })}\n`);
  }
  const page = sieveLifePage({ sieve, condition, reading, told: life, balance: known.balance }, look);
  return reached(textPage(page, look));
}

/** `sievewright sieve show SERIAL`: one sieve as registered, how it stands, its life and its empty masses. */
export async function sieveShow(serial: string, options: SieveShowOptions, io: Io): Promise<Ending> {
  const opened = await openForReading(options.data, io);
  if (!opened.ok) return opened.ending;
  const store = opened.value;
  try {
    const today = stationNow(store.station, io).slice(0, 10);
    const page = await told(store, serial, options.json ?? false, today, textLook(io));
    if (!page.ok) return page.ending;
    const { problems } = store;
    return { code: EXIT.ok, out: page.value, remark: () => (problems.length > 0 ? problems.join("; ") : null) };
  } finally {
    await store.close();
  }
}
