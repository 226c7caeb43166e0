import type { CareKnown } from "../../care/known.ts";
import { isOutside, tareBand } from "../../care/tare/band.ts";
import { grams } from "../../care/words.ts";
import { accepted, type Outcome, refused } from "../../entry/outcome.ts";
import { quoted } from "../../entry/quoted.ts";
import { type Care, CLEANINGS } from "../../record/care.ts";
import { figure } from "../../words/figures.ts";
import { phrase, say } from "../../words/say.ts";
import { speaking } from "../../words/speaking.ts";
import type { App } from "../place.ts";
import type { CARE_FORMS, CareFormPlace } from "./places.ts";
import { type AnswerOf, answersOf, type CareQuestion, signatureOf } from "./questions.ts";
import { filled, mass, reason, words } from "./reads.ts";

type CareDid = (typeof CARE_FORMS)[number];

const noteQuestion = (): CareQuestion => ({
  word: "note",
  asks: say`anything besides; Enter for nothing`,
  mayBeEmpty: true,
  read: words(400),
});

function reasonQuestion(did: Exclude<CareDid, "cleaning">): CareQuestion {
  switch (did) {
    case "repair":
      return { word: "what", asks: say`what was repaired, and how`, read: reason };
    case "quarantine":
      return { word: "why", asks: say`why it is taken out of service until it is looked into`, read: reason };
    case "return to service":
      return { word: "why", asks: say`what shows that it is right again`, read: reason };
    case "retirement":
      return { word: "why", asks: say`why it is retired for good`, read: reason };
  }
}

const SEPARATOR = ", ";

/** Serials as typed, or those of a set. */
function serialsRead({ register }: CareKnown, typed: string): Outcome<string> {
  const named = typed.split(/[\s,;]+/).filter((one) => one !== "");
  const found: string[] = [];
  for (const one of named) {
    const set = register.sets.find(({ code }) => code.toLowerCase() === one.toLowerCase());
    const sieve = register.sieves.find(({ serial }) => serial.toLowerCase() === one.toLowerCase());
    if (set === undefined && sieve === undefined) return refused(say`${quoted(one)} is neither a sieve nor a set here`);
    found.push(...(set?.serials ?? []), ...(sieve === undefined ? [] : [sieve.serial]));
  }
  return accepted([...new Set(found)].join(SEPARATOR));
}

/** A sieve that is clean weighs what it weighed when it was clean: what lies off is weighed again before it is taken. */
function offLevel({ conditions, balance }: CareKnown, serial: string, answer: string): string | null {
  const band = tareBand(conditions.sieves.find((one) => one.serial === serial)?.tare ?? null);
  if (band === null || !isOutside(band, Number(answer), balance)) return null;
  const [off, level] = [Number(answer), band.levelG].map((massG) => grams(massG, balance.readabilityG));
  return say`${serial} weighs ${figure(off ?? "")}, clean it weighed ${figure(level ?? "")}: clean and weigh again, or Enter takes it all the same`;
}

const EMPTY = phrase("empty {0}");
const emptyWord = (serial: string): string => EMPTY.replace("{0}", () => serial);

function cleaningQuestions({ serial, known, answers }: CareFormPlace): readonly CareQuestion[] {
  const which: CareQuestion = {
    word: "which",
    asks: say`this sieve, others by serial, or a whole set by its code`,
    usual: serial,
    read: (typed) => serialsRead(known, typed),
  };
  const how: CareQuestion = { word: "how", asks: say`brush softly, never scrape`, options: CLEANINGS };
  const serials = (answers[0] ?? "").split(SEPARATOR).filter((one) => one !== "");
  const empties = serials.map(
    (one): CareQuestion => ({
      word: emptyWord(one),
      asks: say`what ${one} weighs empty now, dry and cool; Enter if it is not weighed`,
      mayBeEmpty: true,
      isNumber: true,
      read: mass(speaking().decimal),
      doubt: (answer) => offLevel(known, one, answer),
    }),
  );
  return [which, how, ...empties, noteQuestion()];
}

/** What a form about a sieve asks, in order. */
export function careQuestions(app: App, place: CareFormPlace, did: CareDid): readonly CareQuestion[] {
  const asked = did === "cleaning" ? cleaningQuestions(place) : [reasonQuestion(did), noteQuestion()];
  return [...asked, ...signatureOf(app)];
}

/** The care that answers tell of. */
export function careOf(did: CareDid, serials: readonly string[], answerOf: AnswerOf): Care {
  const note = filled({ note: answerOf("note") });
  const about = { serials: [...serials], ...note };
  switch (did) {
    case "cleaning": {
      const after = serials.flatMap((serial) => {
        const empty = answerOf(emptyWord(serial));
        return empty === "" ? [] : [{ serial, emptyG: Number(empty) }];
      });
      const how = CLEANINGS.find((one) => one === answerOf("how")) ?? "brush";
      return { did, how, ...about, ...(after.length === 0 ? {} : { after }) };
    }
    case "repair":
      return { did, what: answerOf("what"), ...about };
    case "quarantine":
    case "return to service":
    case "retirement":
      return { did, reason: answerOf("why"), ...about };
  }
}

/** The care of a filled form. */
export function careAnswered(app: App, place: CareFormPlace, did: CareDid, answers: readonly string[]): Care {
  const answerOf = answersOf(careQuestions(app, { ...place, answers }, did), answers);
  const serials = did === "cleaning" ? answerOf("which").split(SEPARATOR) : [place.serial];
  return careOf(did, serials, answerOf);
}
