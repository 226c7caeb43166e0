import { drawable } from "../terminal/sanitise.ts";
import { ENGLISH } from "../words/manner.ts";
import { say } from "../words/say.ts";
import { inManner } from "../words/speaking.ts";
import { spoken } from "../words/spoken.ts";
import { GENERAL_KEYS } from "./general.ts";
import { keyText } from "./help/helpRoom.ts";
import { type Line, type Span, sentenceOf, textOf } from "./line.ts";
import type { App, Size } from "./place.ts";
import { inPractice } from "./practice/practice.ts";
import type { Binding } from "./room.ts";
import { roomOf } from "./rooms.ts";
import { titleOf } from "./titleOf.ts";
import { tourWords } from "./tour/tour.ts";
import { standingWarning } from "./unsaved.ts";

/** So wide that no sentence is broken and no name cut; so high that a list is told by as many rows as one screen has. */
const PAGE: Size = { columns: 240, rows: 30 };

/** All of them but the mark of a row and the end of what is typed. */
const DRAWING = /[─-╿▀-▋▍-▟■-▷▹-◿]+/g;
const WORDLESS = /^[^\p{L}\p{N}]*$|^[\d.,\s]*$/u;

/** Columns of a row without a sentence: what stands first is what the rest is about. */
const inWords = (l: Line): string =>
  textOf(l)
    .replace(DRAWING, " ")
    .replace(/^\s*([▸…])\s*/, "$1 ")
    .trim()
    .replace(/ {2,}/, ": ");

/** A row as it is read: its sentence if it has one, else its words, without lines and bars. */
const readOut = (words: string): string =>
  drawable(
    words
      .replace(/\s*▌/, say` typing`)
      .replace(/^\s*[▸…]\s*/, say`chosen: `)
      .replace(DRAWING, " ")
      .trim()
      .replace(/ {2,}/g, ", ")
      .replace(/(\d\S*) – (?=\S)/g, (_, from: string) => `${from}${say` to `}`)
      .replace(/(?:, )?…$/, say` and more`),
  );

/** A drawing's rows hold a figure of its axis at most; a chart says nothing that its table doesn't. */
const isDrawn = (l: Line): boolean =>
  sentenceOf(l) === null && (textOf(l).match(DRAWING)?.join("").length ?? 0) > 3 && !/\p{L}{4}/u.test(textOf(l));

const keyWords = (keys: readonly Binding[], text: boolean): string => {
  const told = keys
    .filter((key) => !key.quiet)
    .map(({ keys: [first = ""], word }) =>
      first === "up" ? say`Up or Down ${spoken(word)}` : `${keyText(first)} ${spoken(word)}`,
    );
  return say`keys: ${[...told, `${text ? "F1" : "?"} ${say`help`}`].join("; ")}`;
};

const markWords = (app: App, mark: Span | null | undefined): string => {
  if (!mark) return "";
  return inPractice(app) ? say`practice, never recorded: ` : say`stack ${mark.text.trim()}: `;
};

/** The present place as sentences in reading order: title, message, what it shows, its keys. */
export const readingOf = (app: App): readonly string[] => inManner(app.manner ?? ENGLISH, () => readingIn(app));

function readingIn(app: App): readonly string[] {
  const room = roomOf(app.place);
  const { mark, left, right } = titleOf(app);
  const warnings = [standingWarning(app), app.message, tourWords(app)].filter((told) => told !== null);
  const body = room
    .body({ ...app, big: false }, PAGE)
    .filter((l) => !isDrawn(l))
    .flatMap((l) => (sentenceOf(l) ?? inWords(l)).split("\n").map(readOut));
  const keys = [...room.keys(app), ...GENERAL_KEYS.filter((key) => key.word !== "help")];
  return [
    `${markWords(app, mark)}${drawable(left)}`,
    readOut(textOf(right)),
    ...warnings.map((told) => drawable(spoken(told))),
    ...body.filter((text) => !WORDLESS.test(text)),
    keyWords(keys, room.field(app) === "text"),
  ].filter((text) => text !== "");
}
