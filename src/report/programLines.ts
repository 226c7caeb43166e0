import { aidWords } from "../procedure/program/deviations.ts";
import type { Program } from "../record/program.ts";

/** Seconds as minutes and seconds: 605 is "10:05". */
export const clockText = (seconds: number): string => {
  const whole = Math.ceil(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
};

/** A program in the words of the shaker's panel. Stroke is peak to peak. */
export function programLines(program: Program): string[] {
  const { motion, strokeMm, peakAccelerationG, frequencyHz, durationS, onS, offS, aids, wet } = program;
  const throwText = [
    strokeMm === undefined ? [] : [`stroke ${strokeMm} mm peak to peak`],
    peakAccelerationG === undefined ? [] : [`peak acceleration ${peakAccelerationG} g`],
    frequencyHz === undefined ? [] : [`${frequencyHz} Hz`],
  ].flat();
  return [
    `${program.name}: ${motion}, ${wet ? "wet" : "dry"}`,
    throwText.join(", "),
    `${clockText(durationS)} min${onS === undefined ? "" : `, ${onS} s on, ${offS ?? 0} s off`}`,
    aids && aids.length > 0 ? `aids: ${aids.map(aidWords).join(", ")}` : "",
  ].filter((text) => text !== "");
}
