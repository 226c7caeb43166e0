import type { IndexRow } from "../../record/indexRow.ts";
import { STREAMS, type StreamName } from "../../report/deckFigures.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, type Span, span } from "../line.ts";
import { type App, type DeckMarks, type LogPlace, type Step, stay, step } from "../place.ts";
import { here } from "../room.ts";

/** The key that marks a stream, and its name. */
const MARKS: Readonly<Record<StreamName, { readonly key: string; readonly word: string }>> = {
  feed: { key: "F2", word: phrase("feed") },
  oversize: { key: "F3", word: phrase("oversize") },
  undersize: { key: "F4", word: phrase("undersize") },
};

/** The name of a stream as the screen says it. */
export const streamText = (stream: StreamName): string => spoken(MARKS[stream].word);

/** The letter that stands beside the row of a stream: the first of its name. */
const letterFor = (stream: StreamName): string => streamText(stream).charAt(0).toUpperCase();

const isOf = (row: IndexRow) => (mark: IndexRow | undefined) => mark?.number === row.number;

/** The letter beside a row that is marked; a row stands for one stream at most. */
export function letterOf({ marks }: LogPlace, row: IndexRow): string {
  const stream = STREAMS.find((one) => isOf(row)(marks[one]));
  return stream ? letterFor(stream) : "";
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
    const shown = row ? span(row.lot === "" ? say`no. ${row.number}` : row.lot, "strong") : span("–", "dim");
    return [span(`  ${letterFor(stream)} ${streamText(stream)} `, "dim"), shown];
  });
  return [...parts, span(`   F5 ${say`deck`}`, "dim")];
}

/** The deck of the three marked tests, once they have been read. */
export function openDeck(app: App): Step {
  const { feed, oversize, undersize } = here(app, "log").marks;
  if (feed && oversize && undersize) return step(app, { do: "openDeck", rows: { feed, oversize, undersize } });
  const missing = STREAMS.filter((stream) => !here(app, "log").marks[stream]);
  return stay(
    app,
    say`still to mark: ${missing.map((stream) => `${streamText(stream)} (${MARKS[stream].key})`).join(", ")}`,
  );
}
