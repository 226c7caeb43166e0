import { Low } from "lowdb";
import type { IndexRow } from "../record/indexRow.ts";
import type { Kind } from "../record/migrate.ts";
import { type MonthWords, type WordsFile, WordsFileSchema } from "../record/monthWords.ts";
import { type Cabinet, readFrom, report } from "./cabinet.ts";
import { diskTrouble } from "./diskWords.ts";
import { durableFile } from "./durableFile.ts";
import { monthFolder, wordsPath } from "./layout.ts";
import { queue } from "./queue.ts";
import { summedCodec } from "./summedCodec.ts";

const kind: Kind<WordsFile> = { name: "words", schema: WordsFileSchema, lifts: [] };
const codec = summedCodec(kind);

type Known = WordsFile["months"][string];

/** While a search reads one month after another the file is not written after each of them. */
const QUIET_MS = 2_000;

const stateOf = ({ test, verdict, disposition, amended }: IndexRow): MonthWords["states"][number] => ({
  test,
  verdict,
  disposition,
  ...(amended === undefined ? {} : { amended }),
});

/** What some rows say, each thing once. */
export function wordsOf(rows: readonly IndexRow[]): MonthWords {
  const words = new Set(rows.flatMap((row) => [row.product, row.lot, row.line, row.samplingPoint, row.by]));
  const states = new Map(rows.map(stateOf).map((state) => [JSON.stringify(state), state]));
  return { words: [...words].filter((word) => word !== ""), states: [...states.values()] };
}

const joined = (one: MonthWords, other: MonthWords): MonthWords => ({
  words: [...one.words, ...other.words],
  states: [...one.states, ...other.states],
});

/**
 * Which months can hold what is looked for. Taken from a month's rows when somebody reads them, kept in one small file, and
 * good as long as nothing in the folder of that month was written; the month that is written now is never among them.
 */
export class WordsOfMonths {
  readonly #cabinet: Cabinet;
  readonly #inTurn = queue();
  #known: Map<string, Known> | null = null;
  #writing: ReturnType<typeof setTimeout> | null = null;

  constructor(cabinet: Cabinet) {
    this.#cabinet = cabinet;
  }

  /** The months whose words are known; `amended` are the rows, as they are to be read today, that later entries are about. */
  all(amended: readonly IndexRow[]): Promise<ReadonlyMap<string, MonthWords>> {
    return this.#inTurn(async () => {
      const known = await this.#read();
      for (const [month, { folderMs }] of known) if ((await this.#folderMs(month)) !== folderMs) known.delete(month);
      const all = new Map<string, MonthWords>(known);
      for (const row of amended) {
        const words = all.get(row.day.slice(0, 7));
        if (words !== undefined) all.set(row.day.slice(0, 7), joined(words, wordsOf([row])));
      }
      return all;
    });
  }

  /** Takes the words of a month that was read. */
  take(month: string, rows: readonly IndexRow[]): Promise<void> {
    return this.#inTurn(async () => {
      const known = await this.#read();
      const folderMs = await this.#folderMs(month);
      if (folderMs === null || known.get(month)?.folderMs === folderMs) return;
      known.set(month, { ...wordsOf(rows), folderMs });
      if (this.#cabinet.readOnly() !== null) return;
      this.#writing ??= setTimeout(() => void this.settled(), QUIET_MS).unref();
    });
  }

  /** Resolves when the file holds what memory holds. */
  settled(): Promise<void> {
    return this.#inTurn(async () => {
      if (this.#writing === null) return;
      clearTimeout(this.#writing);
      this.#writing = null;
      if (this.#cabinet.readOnly() === null) await this.#write();
    });
  }

  #folderMs(month: string): Promise<number | null> {
    return this.#cabinet.disk.modifiedAtMs(monthFolder(this.#cabinet.folder, month)).catch(() => null);
  }

  async #read(): Promise<Map<string, Known>> {
    if (this.#known !== null) return this.#known;
    const checked = codec.checked();
    const found = await readFrom(this.#cabinet, wordsPath(this.#cabinet.folder), checked);
    const months = found.is === "read" && checked.isAsWritten() ? found.content.months : {};
    this.#known = new Map(Object.entries(months));
    return this.#known;
  }

  async #write(): Promise<void> {
    const { folder, disk } = this.#cabinet;
    const content = { schema: "sievewright.words/1" as const, months: Object.fromEntries(this.#known ?? []) };
    try {
      await new Low(durableFile(wordsPath(folder), codec, disk), content).write();
    } catch (fault) {
      report(this.#cabinet, diskTrouble(fault, "index/words.json is behind: finding old tests takes longer"));
    }
  }
}
