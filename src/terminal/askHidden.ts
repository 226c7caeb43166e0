import { drawable } from "./sanitise.ts";

/** The ends of a terminal that a question needs. */
export interface AskingEnds {
  readonly stdin: Pick<NodeJS.ReadStream, "isTTY" | "setRawMode" | "on" | "off" | "resume" | "pause">;
  readonly stderr: Pick<NodeJS.WriteStream, "write">;
}

const GIVEN_UP = ["\x03", "\x04", "\x1b"];
const ENTER = ["\r", "\n"];
const ERASE = ["\x7f", "\b"];
const LONGEST = 200;

/** What is typed after one more character; or the end of it. */
function typedOn(typed: string, character: string): { readonly typed: string; readonly ends?: "taken" | "given up" } {
  if (ENTER.includes(character)) return { typed, ends: "taken" };
  if (GIVEN_UP.includes(character)) return { typed, ends: "given up" };
  if (ERASE.includes(character)) return { typed: [...typed].slice(0, -1).join("") };
  const types = character >= " " && typed.length < LONGEST;
  return { typed: types ? typed + character : typed };
}

/**
 * Asks for a PIN at the terminal without showing what is typed, not even its length.
 *
 * @returns what was typed before Enter; null where there is no keyboard, or after Ctrl+C, Ctrl+D or Esc
 */
export function askHidden(words: string, { stdin, stderr }: AskingEnds): Promise<string | null> {
  if (!stdin.isTTY) return Promise.resolve(null);
  stderr.write(`${drawable(words)}: `);
  stdin.setRawMode(true);
  return new Promise((resolve) => {
    let typed = "";
    const onBytes = (bytes: Buffer | string) => {
      for (const character of bytes.toString("utf8")) {
        const next = typedOn(typed, character);
        typed = next.typed;
        if (next.ends !== undefined) return done(next.ends === "taken" ? typed : null);
      }
    };
    const onEnd = () => done(null);
    const done = (answer: string | null) => {
      stdin.off("data", onBytes);
      stdin.off("end", onEnd);
      stdin.setRawMode(false);
      stdin.pause();
      stderr.write("\n");
      resolve(answer);
    };
    stdin.on("data", onBytes);
    stdin.on("end", onEnd);
    stdin.resume();
  });
}
