import type { CareKnown } from "../care/known.ts";
import { sievesDuePage, whatIsDue } from "../report/sievesDue.ts";
import { sievesRegisterPage } from "../report/sievesRegisterPage.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { type Ending, EXIT } from "./ending.ts";
import type { Io } from "./io.ts";
import { openForReading } from "./openForReading.ts";
import { stationNow } from "./stationClock.ts";
import { textLook, textPage } from "./textPage.ts";

export interface SievesOptions {
  readonly due?: boolean;
  readonly suspects?: boolean;
  readonly product?: string;
  readonly json?: boolean;
  readonly data?: string;
}

/** Each item with what may be said of it today. */
function registerJson({ register, conditions }: CareKnown, day: string) {
  return {
    schema: "sievewright.register/1",
    day,
    sieves: register.sieves.map((item) => ({
      item,
      condition: conditions.sieves.find(({ serial }) => serial === item.serial) ?? null,
    })),
    sets: register.sets,
    balances: register.balances.map((item) => ({
      item,
      condition: conditions.balances.find(({ id }) => id === item.id) ?? null,
    })),
    weights: register.weights.map((item) => ({
      item,
      condition: conditions.weights.find(({ weight }) => weight === item.weight) ?? null,
    })),
    materials: register.materials,
  };
}

function printedKnown(known: CareKnown, day: string, { due, json }: SievesOptions, width: number): string {
  if (due) {
    const found = whatIsDue(known.conditions);
    return json ? `${printedJson({ schema: "sievewright.due/1", day, ...found })}\n` : sievesDuePage(found, day, width);
  }
  return json ? `${printedJson(registerJson(known, day))}\n` : sievesRegisterPage(known, day, width);
}

/** `sievewright sieves` and `sievewright sieves --due`: what is registered, and what of it asks for something. */
export async function sievesRegister(options: SievesOptions, io: Io): Promise<Ending> {
  const opened = await openForReading(options.data, io);
  if (!opened.ok) return opened.ending;
  const store = opened.value;
  try {
    const today = stationNow(store.station, io).slice(0, 10);
    const known = await store.care.known(today);
    const look = textLook(io);
    const printed = printedKnown(known, today, options, look.width);
    const { problems } = store;
    const remark = () => (problems.length > 0 ? problems.join("; ") : null);
    return { code: EXIT.ok, out: options.json ? printed : textPage(printed, look), remark };
  } finally {
    await store.close();
  }
}
