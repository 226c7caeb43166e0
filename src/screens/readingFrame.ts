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

/** Room enough that nothing is left out for want of it, but not for drawings beside tables. */
const PAGE: Size = { columns: 76, rows: 60 };

const DRAWING = /[─-╿▀-▟■-◿]+/g;
const WORDLESS = /^[^\p{L}\p{N}]*$|^[\d.,\s]*$/u;

/** A row as it is read: its sentence if it has one, else its words, without lines and bars. */
function readOut(l: Line): string {
  const text =
    sentenceOf(l) ?? textOf(l).replace("▌", say` typing `).replace(/▸\s*/, say`chosen: `).replace(DRAWING, " ");
  return drawable(
    text
      .trim()
      .replace(/ {2,}/g, ", ")
      .replace(/ – /g, say` to `)
      .replace(/(?:, )?…$/, say` and more`),
  );
}

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
    .body(app, PAGE)
    .filter((l) => !isDrawn(l))
    .map(readOut);
  const keys = [...room.keys(app), ...GENERAL_KEYS.filter((key) => key.word !== "help")];
  return [
    `${markWords(app, mark)}${drawable(left)}`,
    readOut(right),
    ...warnings.map((told) => drawable(spoken(told))),
    ...body.filter((text) => !WORDLESS.test(text)),
    keyWords(keys, room.field(app) === "text"),
  ].filter((text) => text !== "");
}
