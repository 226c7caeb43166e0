import {
  NELSON_RULES,
  RUN_RULE_IDS,
  RUN_RULES,
  type RunRuleId,
  WESTERN_ELECTRIC_RULES,
} from "../../control/rules/rules.ts";
import type { TrendSwitches } from "../../shift/trend.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { cells, type Line, line } from "../line.ts";
import { moved } from "../list.ts";
import { type App, type Step, stay } from "../place.ts";
import { type Binding, here } from "../room.ts";
import { put } from "./trendPlace.ts";

/** One thing that can be on or off. */
interface Switch {
  readonly words: string;
  readonly isOn: (switches: TrendSwitches) => boolean;
  readonly turned: (switches: TrendSwitches) => TrendSwitches;
}

const ruleSwitch = (id: RunRuleId): Switch => ({
  words: RUN_RULES[id].words,
  isOn: ({ rules }) => rules.includes(id),
  turned: (switches) => ({
    ...switches,
    rules: RUN_RULE_IDS.filter((one) => (one === id) !== switches.rules.includes(one)),
  }),
});

const SWITCHES: readonly Switch[] = [
  ...RUN_RULE_IDS.map(ruleSwitch),
  {
    words: phrase("moving range beyond its limit"),
    isOn: ({ spreadSignals }) => spreadSignals,
    turned: (switches) => ({ ...switches, spreadSignals: !switches.spreadSignals }),
  },
  {
    words: phrase("limits start anew after a logged adjustment of the line"),
    isOn: ({ restarts }) => restarts,
    turned: (switches) => ({ ...switches, restarts: !switches.restarts }),
  },
  {
    words: phrase("limits that were frozen are used"),
    isOn: ({ useFrozen }) => useFrozen,
    turned: (switches) => ({ ...switches, useFrozen: !switches.useFrozen }),
  },
];

/** Every rule by what it sees, on or off. */
export function rulesBody(app: App): readonly Line[] {
  const { switches, at } = here(app, "trend");
  const rows = SWITCHES.map((one, i) =>
    cells([
      { text: i === at ? "▸" : "", columns: 3, role: "strong" },
      { text: one.isOn(switches) ? say`on` : say`off`, columns: 5, role: one.isOn(switches) ? "strong" : "dim" },
      { text: spoken(one.words), columns: 70, role: i === at ? "strong" : "plain" },
    ]),
  );
  const head = line(say`  what signals, and where limits come from; for this look at the trend only`, "dim");
  return [head, [], ...rows];
}

const move = (app: App, by: number): Step => put(app, moved(here(app, "trend"), by, SWITCHES.length));

function turn(app: App): Step {
  const { switches, at } = here(app, "trend");
  const chosen = SWITCHES[at];
  return chosen ? put(app, { switches: chosen.turned(switches) }) : stay(app);
}

const setTo = (app: App, rules: readonly RunRuleId[]): Step =>
  put(app, { switches: { ...here(app, "trend").switches, rules } });

export const RULES_KEYS: readonly Binding[] = [
  { keys: ["enter", " "], word: "on/off", help: "Turn what the mark points at on or off (Space too).", does: turn },
  { keys: ["up"], word: "row", help: "The mark one row up.", does: (app) => move(app, -1) },
  { keys: ["down"], word: "row", help: "The mark one row down.", does: (app) => move(app, 1), quiet: true },
  {
    keys: ["w"],
    word: "Western Electric",
    help: "The four zone rules of the Western Electric handbook, with 8 on one side.",
    does: (app) => setTo(app, WESTERN_ELECTRIC_RULES),
  },
  {
    keys: ["e"],
    word: "Nelson",
    help: "Nelson's eight tests, with 9 on one side.",
    does: (app) => setTo(app, NELSON_RULES),
  },
  {
    keys: ["escape", "r"],
    word: "back",
    help: "Back to the chart.",
    does: (app) => put(app, { page: "chart", at: 0 }),
  },
];
