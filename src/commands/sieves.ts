import { sievesPage } from "../report/sievesPage.ts";
import { describeDesignation } from "../series/describe.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { done, type Ending, EXIT, faulty } from "./ending.ts";
import type { Io } from "./io.ts";
import { textLook, textPage } from "./textPage.ts";

/** `sievewright sieves APERTURE`: what is known of one aperture, by any of its names. */
export async function sieves(aperture: string, options: { json?: boolean }, io: Io): Promise<Ending> {
  const found = describeDesignation(aperture);
  if (!found.ok) return faulty(EXIT.badData, found.reason);
  if (options.json) return done(`${printedJson(found.value)}\n`);
  const look = textLook(io);
  return done(textPage(sievesPage(found.value, look.width), look));
}
