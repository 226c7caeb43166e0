import { expect, test } from "vitest";
import { LINE_EVENTS } from "../../../src/record/shiftEvents.ts";
import { answerText, type Question } from "../../../src/screens/event/answerWords.ts";
import { optionOf } from "../../../src/screens/event/forms.ts";
import { inLanguage } from "../../words/tongues.ts";

const WHAT: Question = { word: "what", asks: "what happened", options: LINE_EVENTS, ours: true };
const LINE: Question = { word: "line", asks: "which line", options: ["other", "Dryer 1"] };

const typed = (text: string) => () => optionOf(LINE_EVENTS, text, (one) => answerText(WHAT, one));

test("options are chosen by their letters on the screen or in English; what is recorded stays English", async () => {
  expect(typed("fe")()).toBe("feed rate");
  expect(await inLanguage("de", typed("Aufg"))).toBe("feed rate");
  expect(await inLanguage("de", typed("feed"))).toBe("feed rate");
  expect(await inLanguage("es", typed("lote n"))).toBe("new lot");
  expect(await inLanguage("es", typed("2"))).toBe("feed rate");
});

test("names of a station stand as they are, whatever they are called", async () => {
  const shown = await inLanguage("de", () => [answerText(LINE, "other"), answerText(WHAT, "other")]);
  expect(shown[0]).toBe("other");
  expect(shown[1]).not.toBe("other");
});

test("whoever decides is said where it is nobody by name", async () => {
  const owner: Question = { word: "decides", asks: "" };
  expect(await inLanguage("de", () => [answerText(owner, "quality"), answerText(owner, "K. Orr")])).toEqual([
    "Qualität",
    "K. Orr",
  ]);
});
