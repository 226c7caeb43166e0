import { quoted } from "../entry/quoted.ts";

/** Steps from the outermost value inwards: field names and, in lists, positions from 0. */
export type Path = readonly PropertyKey[];

/** Where a JSON text breaks the grammar, or goes beyond what a plant's file can need. */
export interface JsonFault {
  readonly offset: number;
  readonly reason: string;
}

type Expecting = "value" | "first value" | "name" | "first name" | "colon" | "comma" | "nothing";
interface Level {
  readonly list: boolean;
  readonly names: Set<string>;
  step: string | number;
}

const DEEPEST = 32;
const TOKEN =
  /[ \t\n\r]*(?:([{}[\]:,])|("[^"\\\u0000-\u001f]*(?:\\(?:["\\/bfnrt]|u[\da-fA-F]{4})[^"\\\u0000-\u001f]*)*")|(-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null))/y;
const WANTED: Readonly<Record<Expecting, string>> = {
  value: "a value",
  "first value": "a value or ]",
  name: "a field name in quotes",
  "first name": "a field name in quotes or }",
  colon: "a colon",
  comma: "a comma or the closing bracket",
  nothing: "the end",
};

/** A token stands in quotes once: those of its own if it is a string. */
const shown = (token: string) => (token.startsWith('"') ? quoted(token.replace(/^"|"$/g, ""), 12) : quoted(token, 12));
const pathKey = (path: Path) => path.map(String).join("\u0000");

/** Follows RFC 8259 token by token without recursion, and notes where each value begins. */
export class JsonScan {
  readonly #text: string;
  readonly #places = new Map<string, number>();
  readonly #levels: Level[] = [];
  #expecting: Expecting = "value";

  constructor(text: string) {
    this.#text = text;
  }

  /** Where the value at this path begins, counted in UTF-16 units from 0. */
  offsetOf(path: Path): number | undefined {
    return this.#places.get(pathKey(path));
  }

  /** The first fault, or null for a whole JSON text without repeated names, nested at most 32 deep. */
  fault(): JsonFault | null {
    for (let offset = 0; ; offset = TOKEN.lastIndex) {
      TOKEN.lastIndex = offset;
      const token = TOKEN.exec(this.#text);
      if (!token) return this.#atNoToken(offset);
      const text = token[1] ?? token[2] ?? token[3] ?? "";
      const start = TOKEN.lastIndex - text.length;
      const reason = this.#take(text, start);
      if (reason !== null) return { offset: start, reason };
    }
  }

  #atNoToken(offset: number): JsonFault | null {
    const rest = this.#text.slice(offset).replace(/^[ \t\n\r]+/, "");
    if (rest !== "") return { offset: this.#text.length - rest.length, reason: this.#unexpected(rest.slice(0, 12)) };
    if (this.#expecting === "nothing") return null;
    return { offset: this.#text.length, reason: `the file ends where ${WANTED[this.#expecting]} is expected` };
  }

  #take(token: string, start: number): string | null {
    switch (this.#expecting) {
      case "value":
      case "first value":
        return this.#expecting === "first value" && token === "]" ? this.#close() : this.#takeValue(token, start);
      case "name":
      case "first name":
        return this.#expecting === "first name" && token === "}" ? this.#close() : this.#takeName(token);
      case "colon":
        this.#expecting = "value";
        return token === ":" ? null : `expected ${WANTED.colon}, found ${shown(token)}`;
      case "comma":
        return this.#takeComma(token);
      default:
        return this.#unexpected(token);
    }
  }

  #takeValue(token: string, start: number): string | null {
    if (/^[}\]:,]$/.test(token)) return this.#unexpected(token);
    this.#places.set(pathKey(this.#levels.map((level) => level.step)), start);
    if (token !== "{" && token !== "[") return this.#valueEnded();
    if (this.#levels.length === DEEPEST) return `is nested more than ${DEEPEST} deep`;
    this.#levels.push({ list: token === "[", names: new Set(), step: token === "[" ? 0 : "" });
    this.#expecting = token === "[" ? "first value" : "first name";
    return null;
  }

  #takeName(token: string): string | null {
    const level = this.#levels.at(-1);
    if (!token.startsWith('"') || !level) return this.#unexpected(token);
    const name: string = JSON.parse(token);
    if (name === "__proto__") return `the field name ${quoted(name)} is not allowed`;
    if (level.names.has(name)) return `the field ${quoted(name)} stands twice`;
    level.names.add(name);
    level.step = name;
    this.#expecting = "colon";
    return null;
  }

  #takeComma(token: string): string | null {
    const level = this.#levels.at(-1);
    if (token === (level?.list ? "]" : "}")) return this.#close();
    if (token !== "," || !level) return this.#unexpected(token);
    if (typeof level.step === "number") level.step += 1;
    this.#expecting = level.list ? "value" : "name";
    return null;
  }

  #close(): null {
    this.#levels.pop();
    return this.#valueEnded();
  }

  #valueEnded(): null {
    this.#expecting = this.#levels.length === 0 ? "nothing" : "comma";
    return null;
  }

  #unexpected(found: string): string {
    return `expected ${WANTED[this.#expecting]}, found ${shown(found)}`;
  }
}
