import { drawable } from "../terminal/sanitise.ts";

/** What is known when the program stops because of a fault of its own. */
export interface FaultStory {
  /** Local time with its offset. */
  readonly at: string;
  /** Of the program, of node, of the platform. */
  readonly versions: string;
  /** The place on the screen, by its name: what was entered there stays out of the report. */
  readonly place: string;
  readonly fault: unknown;
  /** Paths that can name a person, each with what stands for it. */
  readonly hidden: readonly (readonly [string, string])[];
}

const LONGEST_LINE = 240;
const MOST_LINES = 40;

/**
 * A fault as a short page for whoever looks after the program: when, which version, where on the screen, what, the stack.
 * It holds nothing that was entered, no names, and paths only as far as they name nobody.
 */
export function faultPage({ at, versions, place, fault, hidden }: FaultStory): string {
  const [what = "", ...stack] = storyOf(fault).split(/\r?\n/);
  const about = [
    "Sievewright stopped because of a fault of its own.",
    "Nothing that was entered stands in this report.",
    "",
    `time     ${at}`,
    `version  ${versions}`,
    `place    ${place}`,
    `fault    ${what}`,
  ];
  const lines = [...about, ...stack].map((text) => shown(text, hidden)).slice(0, MOST_LINES);
  return `${lines.join("\n")}\n`;
}

/** In a few words, for the terminal. */
export const faultInShort = (fault: unknown): string => shown(storyOf(fault).split(/\r?\n/)[0] ?? "", []);

function storyOf(fault: unknown): string {
  if (!(fault instanceof Error)) return `thrown: ${typeof fault === "string" ? fault : typeof fault}`;
  const named = `${fault.name}: ${fault.message}`;
  const stack = fault.stack ?? "";
  return stack.startsWith(fault.name) ? stack : `${named}\n${stack}`;
}

function shown(text: string, hidden: FaultStory["hidden"]): string {
  const safe = hidden.reduce((left, [path, sign]) => (path === "" ? left : left.replaceAll(path, sign)), text);
  return drawable(safe).slice(0, LONGEST_LINE);
}
