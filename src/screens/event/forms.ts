import type { UntimedEntry } from "../../record/logEntry.ts";
import { sha256Of } from "../../record/seal.ts";
import { LINE_EVENTS, type LineEventName } from "../../record/shiftEvents.ts";
import { DISPOSITIONS } from "../../record/test.ts";
import { signedPage } from "../../report/handoverPage.ts";
import type { HoldOpened } from "../../shift/holds.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import type { App, EventPlace } from "../place.ts";
import { initialsOf, initialsRefusal } from "../sign/initials.ts";
import { answerText, type Question, USUAL_OWNER } from "./answerWords.ts";

const CLOSINGS = DISPOSITIONS.filter((one) => one !== "hold" && one !== "resample");
const DETAIL: Question = { word: "what exactly", asks: phrase("from what to what, and why") };
const REASON: Question = { word: "why", asks: phrase("the reason, in your own words") };

/** What says enough without a word more. */
const MAY_STAND_ALONE: readonly LineEventName[] = ["changeover", "new lot", "stopped", "started"];

/** The questions about a line depend on what happened to it. */
function lineQuestions(app: App, [line = "", what = ""]: readonly string[]): readonly Question[] {
  const { lines } = app.station;
  const codes = app.products.map(({ code }) => code);
  const running = app.recent?.find((row) => row.line === line)?.product;
  const usual = running === undefined ? {} : { usual: running };
  const product: Question = { word: "product", asks: say`what runs from now on`, options: codes, ...usual };
  const lot: Question = { word: "lot", asks: say`the lot that begins` };
  return [
    { word: "line", asks: say`which line`, options: lines, ...(app.recent?.[0] ? { usual: app.recent[0].line } : {}) },
    { word: "what", asks: say`what happened`, options: LINE_EVENTS, ours: true },
    ...(what === "changeover" || what === "new lot" ? [product] : []),
    ...(what === "new lot" ? [lot] : []),
    ...(MAY_STAND_ALONE.some((one) => one === what) ? [{ ...DETAIL, mayBeEmpty: true as const }] : [DETAIL]),
  ];
}

/** What stands against what is being signed: the release of a lot that its tests do not support; null: nothing. */
export const againstIn = ({ about, answers }: Pick<EventPlace, "about" | "answers">): string | null =>
  about.is === "hold" && answers[0] === "release" ? about.against : null;

function closeQuestions(place: EventPlace): readonly Question[] {
  const against = againstIn(place);
  const asks = against === null ? say`why the hold is closed` : say`why it is released although ${spoken(against)}`;
  return [
    { word: "becomes", asks: say`what becomes of the lot`, options: CLOSINGS, ours: true },
    { ...REASON, asks },
  ];
}

/** What a form asks, in order; the signature comes last and is nobody's choice while somebody is signed on. */
export function questionsOf(app: App, place: EventPlace): readonly Question[] {
  const { form, answers } = place;
  const signature: Question = { word: "signed by", asks: say`your initials`, usual: app.operator };
  const asked: Readonly<Record<EventPlace["form"], () => readonly Question[]>> = {
    note: () => [{ word: "note", asks: say`what the next shift should know` }],
    line: () => lineQuestions(app, answers),
    hold: () => [
      { word: "decides", asks: say`who decides on this lot`, usual: USUAL_OWNER },
      { ...REASON, asks: say`why the lot is kept back` },
    ],
    close: () => closeQuestions(place),
    handover: () => [{ word: "remark", asks: say`anything besides the page; Enter for nothing`, mayBeEmpty: true }],
    taken: () => [{ word: "read", asks: say`Enter: the page that was handed over has been read`, mayBeEmpty: true }],
  };
  return [...asked[form](), ...(app.session === null ? [signature] : [])];
}

/** The option that was typed: by its number, or by how it begins as the screen says it, or in English. */
export function optionOf(
  options: readonly string[],
  typed: string,
  shownAs: (option: string) => string = (option) => option,
): string | null {
  const text = typed.trim().toLowerCase();
  if (/^\d+$/.test(text)) return options[Number(text) - 1] ?? null;
  if (text === "") return null;
  const begins = (words: (option: string) => string) =>
    options.find((option) => words(option).toLowerCase().startsWith(text));
  return begins(shownAs) ?? begins((option) => option) ?? null;
}

/** What an answer stands for, or why it is none. */
export function answerTaken(app: App, question: Question, typed: string): { answer: string } | { refusal: string } {
  const text = typed.trim();
  if (question.word === "signed by") {
    const by = initialsOf(app, text);
    const refusal = initialsRefusal(app, by);
    return refusal === null ? { answer: by } : { refusal };
  }
  if (text === "" && question.usual !== undefined) return { answer: question.usual };
  if (question.options !== undefined) {
    const option = optionOf(question.options, text, (one) => answerText(question, one));
    return option === null ? { refusal: say`choose by number, or by the first letters` } : { answer: option };
  }
  if (text.length < 3 && !question.mayBeEmpty && question.word !== "lot") return { refusal: say`say it in words` };
  return text === "" && !question.mayBeEmpty ? { refusal: say`type: ${spoken(question.word)}` } : { answer: text };
}

function lineEntry(answers: readonly string[], by: string): UntimedEntry {
  const [line = "", named = "", ...rest] = answers;
  const what = (LINE_EVENTS.find((event) => event === named) ?? "other") satisfies LineEventName;
  const product = what === "changeover" || what === "new lot" ? rest.shift() : undefined;
  const lot = what === "new lot" ? rest.shift() : undefined;
  return {
    kind: "line adjusted",
    by,
    line,
    what,
    detail: rest[0] ?? "",
    ...(product === undefined ? {} : { product }),
    ...(lot === undefined ? {} : { lot }),
  };
}

function closedEntry(
  { day, number, product, lot }: HoldOpened,
  told: { readonly by: string; readonly answers: readonly string[]; readonly against: string | null },
): UntimedEntry {
  const { by, answers, against } = told;
  const [first = "", reason = ""] = answers;
  const disposition = CLOSINGS.find((one) => one === first) ?? "rework";
  const despite = against === null ? {} : { despite: against };
  return { kind: "hold closed", by, hold: { day, number }, product, lot, disposition, reason, ...despite };
}

/** The entry that a filled form asks to record; its moment is that of the recording. */
export function entryOf(app: App, place: EventPlace, answers: readonly string[]): UntimedEntry | null {
  const by = app.session?.initials ?? answers.at(-1) ?? app.operator;
  const [first = "", second = ""] = answers;
  const { about } = place;
  switch (place.form) {
    case "note":
      return { kind: "note", by, text: first };
    case "line":
      return lineEntry(answers, by);
    case "hold":
      return about.is === "lot"
        ? {
            kind: "hold opened",
            by,
            product: about.product,
            lot: about.lot,
            line: about.line,
            of: about.of,
            owner: first,
            reason: second,
          }
        : null;
    case "close":
      return about.is === "hold"
        ? closedEntry(about.hold, { by, answers, against: againstIn({ about, answers }) })
        : null;
    case "handover":
      return about.is === "handover"
        ? {
            kind: "handover",
            by,
            shift: about.shift,
            head: about.head,
            pageSha256: sha256Of(signedPage(about.page, { by, at: app.now })),
            remark: first,
          }
        : null;
    case "taken":
      return about.is === "handed over" ? { kind: "handover taken", by, handover: about.handover } : null;
  }
}
