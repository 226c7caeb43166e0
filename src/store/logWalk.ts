import type { Link, Run } from "./chainParts.ts";
import { ChainWalk } from "./chainWalk.ts";
import { linksAt } from "./dayLinks.ts";
import type { Disk } from "./disk.ts";
import { dayAgrees, dayContradiction, type KnownMonth, knownMonth, monthsKnown } from "./knownMonth.ts";
import { dayPath, shortName } from "./layout.ts";
import { daysIn, monthsIn } from "./logFolder.ts";
import { Watch } from "./watch.ts";

/** Which indexes are looked at: of every month, or of the newest alone. */
export type IndexLook = "all" | "newest";

/** A walk over the days of a log, a file in memory at a time, beside what the index knows of them. */
export class LogWalk {
  readonly chain: ChainWalk;
  readonly watch: Watch;
  /** Months whose index says something else than their days. */
  readonly amiss: string[] = [];
  readonly #gone: string[] = [];
  readonly #folder: string;
  readonly #disk: Disk;

  constructor(folder: string, disk: Disk, numbers: Iterable<number>, passing?: (link: Link, seal: string) => void) {
    this.#folder = folder;
    this.#disk = disk;
    this.watch = new Watch(numbers);
    this.chain = new ChainWalk((link, seal, file) => {
      this.watch.pass(link, seal, file);
      passing?.(link, seal);
    });
  }

  fileOf = (day: string): string => shortName(this.#folder, dayPath(this.#folder, day));

  async all(look: IndexLook): Promise<void> {
    const known = await monthsKnown(this.#folder, this.#disk);
    const months = [...new Set([...known, ...(await monthsIn(this.#folder, this.#disk))])].sort();
    for (const month of months) {
      const wanted = look === "all" || month === months.at(-1);
      await this.#month(month, wanted ? await knownMonth(this.#folder, month, this.#disk) : null);
    }
  }

  /** The file of a gone day between two runs; null when the index knows of none. */
  goneBetween = (before: Run | null, after: Run): string | null => {
    const from = before?.lastDay ?? "";
    const gone = this.#gone.find((day) => day >= from && day <= after.lastDay);
    return gone === undefined ? null : this.fileOf(gone);
  };

  /** To be called when all witnesses have spoken: days that only the index knows, where no gap tells of them. */
  noteGone(): void {
    const [day] = this.#gone;
    if (day === undefined) return;
    const entry = (this.chain.end()?.last ?? 0) + 1;
    this.chain.note({
      file: this.fileOf(day),
      entry,
      how: "truncated: this file is gone, and the index knows entries in it",
    });
  }

  async #month(month: string, index: KnownMonth | null): Promise<void> {
    const days = await daysIn(this.#folder, month, this.#disk);
    let agrees = index !== null;
    for (const day of days) if (!(await this.#day(day, index))) agrees = false;
    const gone = Object.keys(index?.days ?? {}).filter((day) => !days.includes(day));
    this.#gone.push(...gone);
    if (!agrees || gone.length > 0) this.amiss.push(month);
  }

  /** Walks one day; true when the index says the same of it. */
  async #day(day: string, index: KnownMonth | null): Promise<boolean> {
    const file = this.fileOf(day);
    const links = await linksAt(dayPath(this.#folder, day), this.#disk);
    if (typeof links === "string") {
      this.chain.note({ file, entry: (this.chain.end()?.last ?? 0) + 1, how: `unreadable: ${links}` });
      return false;
    }
    this.watch.beginDay();
    this.chain.day(file, day, links);
    if (index === null) return false;
    const contradicted = dayContradiction(file, index.days[day], links, this.watch.sealOfNth);
    if (contradicted !== null) this.chain.note(contradicted);
    return dayAgrees(index, day, links, this.watch.sealOfNth);
  }
}
