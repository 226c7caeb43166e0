import type { LogEntry } from "../record/logEntry.ts";

/** Of which product, lot and line an entry tells; absent where it tells of none. */
export interface EntrySubject {
  readonly product?: string;
  readonly lot?: string;
  readonly line?: string;
}

/** What an entry is about. Corrections and the like name a test by its number only: what that is about is not known here. */
export function entrySubject(entry: LogEntry): EntrySubject {
  switch (entry.kind) {
    case "test":
    case "test ended":
      return { product: entry.test.product.code, lot: entry.test.lot, line: entry.test.line };
    case "product loaded":
    case "product published":
      return { product: entry.code };
    case "hold opened":
      return { product: entry.product, lot: entry.lot, line: entry.line };
    case "hold closed":
      return { product: entry.product, lot: entry.lot };
    case "limits frozen":
      return { product: entry.product, line: entry.line };
    case "line adjusted": {
      const { product, lot, line } = entry;
      return { line, ...(product === undefined ? {} : { product }), ...(lot === undefined ? {} : { lot }) };
    }
    default:
      return {};
  }
}
