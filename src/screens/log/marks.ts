import type { IndexRow } from "../../record/indexRow.ts";
import { STREAMS, type StreamName } from "../../report/deckFigures.ts";
import { say } from "../../words/say.ts";
import { type Line, type Span, span } from "../line.ts";
import { type App, type DeckMarks, type LogPlace, type Step, stay, step } from "../place.ts";
import { here } from "../room.ts";

/** The key that marks a stream, and the letter that stands beside its row. */
export const MARKS: Readonly<Record<StreamName, { readonly key: string; readonly letter: string }>> = {
  feed: { key: "F2", letter: "F" },
  oversize: { key: "F3", letter: "O" },
  undersize: { key: "F4", letter: "U" },
};

const isOf = (row: IndexRow) => (mark: IndexRow | undefined) => mark?.number === row.number;

/** The letter beside a row that is marked; a row stands for one stream at most. */
export function letterOf({ marks }: LogPlace, row: IndexRow): string {
  const stream = STREAMS.find((one) => isOf(row)(marks[one]));
  return stream ? MARKS[stream].letter : "";
}

/** The row as one of the streams and no other; marked again as the same, no more. */
function markedAs(marks: DeckMarks, stream: StreamName, row: IndexRow): DeckMarks {
  const others = Object.fromEntries(Object.entries(marks).filter(([, mark]) => !isOf(row)(mark)));
  return isOf(row)(marks[stream]) ? others : { ...others, [stream]: row };
}

/** Marks the row in hand. */
export function mark(app: App, row: IndexRow | undefined, stream: StreamName): Step {
  const place = here(app, "log");
  if (!row) return stay(app, say`nothing matches`);
  return step({ ...app, message: null, place: { ...place, marks: markedAs(place.marks, stream, row) } });
}

/** What is marked as what, in one line; nothing while nothing is. */
export function marksLine({ marks }: LogPlace): Line {
  if (STREAMS.every((stream) => !marks[stream])) return [];
  const parts = STREAMS.flatMap((stream): Span[] => {
    const row = marks[stream];
    const shown = row ? span(row.lot === "" ? `no. ${row.number}` : row.lot, "strong") : span("–", "dim");
    return [span(`  ${MARKS[stream].letter} ${stream} `, "dim"), shown];
  });
  return [...parts, span("   F5 deck", "dim")];
}

/** The deck of the three marked tests, once they have been read. */
export function openDeck(app: App): Step {
  const { feed, oversize, undersize } = here(app, "log").marks;
  if (feed && oversize && undersize) return step(app, { do: "openDeck", rows: { feed, oversize, undersize } });
  const missing = STREAMS.filter((stream) => !here(app, "log").marks[stream]);
  return stay(app, say`still to mark: ${missing.map((stream) => `${stream} (${MARKS[stream].key})`).join(", ")}`);
}
