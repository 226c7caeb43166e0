import { createHash } from "node:crypto";
import { join } from "node:path";
import { z } from "zod";
import type { Outcome } from "../entry/outcome.ts";
import { UNPRINTABLE } from "../entry/quoted.ts";
import type { Kind } from "../record/migrate.ts";
import type { Disk } from "./disk.ts";
import { codecOf, durableFile } from "./durableFile.ts";
import { indexFolder } from "./layout.ts";

const ToldSchema = z.strictObject({
  schema: z.literal("sievewright.findings/1"),
  /** The first digits of the SHA-256 of each finding that the log holds already. */
  told: z.array(z.string()).max(2000),
});
type Told = z.infer<typeof ToldSchema>;
const toldKind: Kind<Told> = { name: "findings", schema: ToldSchema, lifts: [] };

const LONGEST = 400;
const REMEMBERED = 500;
const EACH_UNPRINTABLE = new RegExp(UNPRINTABLE, "gu");
const markOf = (found: string): string => createHash("sha256").update(found).digest("hex").slice(0, 16);

/**
 * What was found amiss in a station's files, or put right, on its way into the log: each once, also when every opening finds
 * it again. Which ones the log holds is remembered beside the index; without that they are told once more.
 */
export class Findings {
  readonly #folder: string;
  readonly #disk: Disk;
  readonly #waiting: string[] = [];
  #told: Set<string> | null = null;
  #heard: () => void = () => undefined;

  constructor(folder: string, disk: Disk) {
    this.#folder = folder;
    this.#disk = disk;
  }

  add(found: string): void {
    const words = found.replace(EACH_UNPRINTABLE, "?").slice(0, LONGEST);
    if (this.#waiting.includes(words)) return;
    this.#waiting.push(words);
    this.#heard();
  }

  /** Calls back when something is waiting to be told, also what was found before. */
  onFound(heard: () => void): void {
    this.#heard = heard;
    if (this.#waiting.length > 0) heard();
  }

  /** Tells the log what it doesn't know yet. What it refuses waits for the next time. */
  async tell(record: (found: string) => Promise<Outcome<unknown>>): Promise<void> {
    if (this.#waiting.length === 0) return;
    const told = await this.#known();
    for (let [found] = this.#waiting; found !== undefined; [found] = this.#waiting) {
      if (!told.has(markOf(found)) && !(await record(found)).ok) break;
      this.#waiting.shift(); // recording it may have found more
      told.add(markOf(found));
    }
    await this.#remember(told);
  }

  async #known(): Promise<Set<string>> {
    const found =
      this.#told ??
      new Set(
        (
          await this.#file()
            .read()
            .catch(() => null)
        )?.told,
      );
    this.#told = found;
    return found;
  }

  async #remember(told: ReadonlySet<string>): Promise<void> {
    const latest = [...told].slice(-REMEMBERED);
    await this.#file()
      .write({ schema: "sievewright.findings/1", told: latest })
      .catch(() => undefined);
  }

  #file() {
    return durableFile(join(indexFolder(this.#folder), "findings.json"), codecOf(toldKind), this.#disk);
  }
}
