import type { Stage } from "../../record/draft.ts";
import { isPractice } from "../../record/practice.ts";
import type { RunPlace } from "../place.ts";
import { practiceKeys } from "../practice/practiceKeys.ts";
import type { Binding } from "../room.ts";
import { CLEANED } from "./cleaned.ts";
import {
  ACCEPT,
  BACK_KEY,
  BIG,
  CHECK_MINUTE,
  DOWN,
  EMPTIES,
  END,
  FULLS,
  HOW_MUCH,
  PORTION,
  SET_OUT,
  UNDO,
  UP,
} from "./commonKeys.ts";
import { resultKeys } from "./resultKeys.ts";
import { shakeKeys } from "./shakeKeys.ts";
import { takeOver } from "./takingOver.ts";
import { writingKeys } from "./writing.ts";

/** Set out: letters belong to the fields, so that only named keys are actions here. */
const setOutKeys: readonly Binding[] = [
  ACCEPT,
  { ...UP, keys: ["up"], help: "To the field above." },
  { ...DOWN, keys: ["down"], help: "To the field below." },
  { ...UNDO, keys: ["f4", "ctrl+z"] },
  { ...HOW_MUCH, keys: ["f7", "ctrl+g"] },
  { ...END, keys: ["f9", "ctrl+x"] },
  BACK_KEY,
];

const emptyKeys = (isTakenOver: boolean): readonly Binding[] => [
  ACCEPT,
  takeOver(isTakenOver),
  UP,
  DOWN,
  UNDO,
  CLEANED,
  BIG,
  { ...SET_OUT },
  { ...FULLS, quiet: true },
  END,
  BACK_KEY,
];
const fullKeys: readonly Binding[] = [
  ACCEPT,
  UP,
  DOWN,
  UNDO,
  EMPTIES,
  CHECK_MINUTE,
  BIG,
  PORTION,
  { ...SET_OUT, quiet: true },
  END,
  BACK_KEY,
];

export const RUN_KEYS: Record<Stage, readonly Binding[]> = {
  "set out": setOutKeys,
  "weigh empty": emptyKeys(false),
  shake: shakeKeys,
  "weigh full": fullKeys,
  result: resultKeys,
};

const TAKING_OVER = emptyKeys(true);

const keysAt = ({ stage, product }: RunPlace["run"]["draft"]): readonly Binding[] =>
  stage === "weigh empty" && product.method?.emptyMasses === "each shift" ? TAKING_OVER : RUN_KEYS[stage];

/** The keys of a test in progress, by what is being done. */
export const runKeys = (place: RunPlace): readonly Binding[] => {
  if (place.writing) return writingKeys;
  const keys = keysAt(place.run.draft);
  return isPractice(place.run.draft) ? practiceKeys(keys, place.run) : keys;
};
