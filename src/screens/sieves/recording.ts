import { say } from "../../words/say.ts";
import { type App, type Step, step } from "../place.ts";
import type { CareEffect } from "./places.ts";

const recordingWords = (): string => say`recording ...`;

/** Something is on its way to the log: a second Enter must not send it again. */
export const isRecording = ({ message }: App): boolean => message === recordingWords();

/** Sends it on its way; the place stays as it is until the log has it, or says why not. */
export const recording = (app: App, effect: Extract<CareEffect, { do: "recordCare" | "registerFile" }>): Step =>
  step({ ...app, message: recordingWords() }, effect);
