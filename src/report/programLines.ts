import { aidWords } from "../procedure/program/deviations.ts";
import type { Program } from "../record/program.ts";
import { phrase, say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";

const MOTION_WORDS: Readonly<Record<Program["motion"], string>> = {
  "vertical throw": phrase("vertical throw"),
  "horizontal circular": phrase("horizontal circular"),
  "horizontal circular with tapping": phrase("horizontal circular with tapping"),
  tapping: phrase("tapping"),
  hand: phrase("hand"),
  "air jet": phrase("air jet"),
};

/** How a program moves its sieves. */
export const motionWords = ({ motion }: Pick<Program, "motion">): string => spoken(MOTION_WORDS[motion]);

/** Seconds as minutes and seconds: 605 is "10:05". */
export const clockText = (seconds: number): string => {
  const whole = Math.ceil(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
};

/** A program in the words of the shaker's panel. Stroke is peak to peak. */
export function programLines(program: Program): string[] {
  const { name, strokeMm, peakAccelerationG, frequencyHz, durationS, onS, offS, aids, wet } = program;
  const throwText = [
    strokeMm === undefined ? [] : [say`stroke ${strokeMm} mm peak to peak`],
    peakAccelerationG === undefined ? [] : [say`peak acceleration ${peakAccelerationG} g`],
    frequencyHz === undefined ? [] : [say`${frequencyHz} Hz`],
  ].flat();
  return [
    wet ? say`${name}: ${motionWords(program)}, wet` : say`${name}: ${motionWords(program)}, dry`,
    throwText.join(", "),
    onS === undefined
      ? say`${clockText(durationS)} min`
      : say`${clockText(durationS)} min, ${onS} s on, ${offS ?? 0} s off`,
    aids && aids.length > 0 ? say`aids: ${aids.map((aid) => spoken(aidWords(aid))).join(", ")}` : "",
  ].filter((text) => text !== "");
}
