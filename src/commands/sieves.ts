import { sievesPage } from "../report/sievesPage.ts";
import { describeDesignation } from "../series/describe.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { done, type Ending, EXIT, faulty } from "./ending.ts";
import type { Io } from "./io.ts";
import type { SievesOptions } from "./sievesRegister.ts";
import { textLook, textPage } from "./textPage.ts";

/** `sievewright sieves [APERTURE]`: the register and what asks for something, or what is known of one aperture. */
export async function sieves(aperture: string, options: SievesOptions, io: Io): Promise<Ending> {
  const { due, suspects, product } = options;
  const asked = [aperture === "" ? "" : "an aperture", due ? "--due" : "", suspects ? "--suspects" : ""].filter(
    Boolean,
  );
  if (asked.length > 1) return faulty(EXIT.usage, `${asked.join(" and ")}: ask for one at a time`);
  if (product !== undefined && !suspects) return faulty(EXIT.usage, "--product goes with --suspects");
  if (suspects) return (await import("./sievesSuspects.ts")).sievesSuspects(options, io);
  if (aperture === "") return (await import("./sievesRegister.ts")).sievesRegister(options, io);
  return described(aperture, options, io);
}

/** What is known of one aperture, by any of its names. */
function described(aperture: string, { json }: SievesOptions, io: Io): Ending {
  const found = describeDesignation(aperture);
  if (!found.ok) return faulty(EXIT.badData, found.reason);
  if (json) return done(`${printedJson(found.value)}\n`);
  const look = textLook(io);
  return done(textPage(sievesPage(found.value, look.width), look));
}
