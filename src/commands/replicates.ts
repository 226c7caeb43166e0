import { type RepeatedTest, repeatedTests } from "../assess/repeatedTests.ts";
import type { Outcome } from "../entry/outcome.ts";
import { replicatesJson } from "../report/replicatesJson.ts";
import { replicatesPage } from "../report/replicatesPage.ts";
import type { Store } from "../store/store.ts";
import { testsNumbered, testsOfLot } from "../store/testsTogether.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { type Ending, EXIT, ended, faulty, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";
import { openForReading } from "./openForReading.ts";
import { replicatesBetween, replicatesOfResults } from "./replicatesBetween.ts";
import { textLook, textPage } from "./textPage.ts";

export interface ReplicatesOptions {
  readonly lot?: string;
  readonly product?: string;
  readonly stations?: readonly string[];
  readonly results?: string;
  readonly json?: boolean;
  readonly data?: string;
}

const MOST_TESTS = 100;

/** Which tests are meant, before anything is read; a way of naming them that goes with no other is refused beside one. */
type Named =
  | { readonly by: "number"; readonly numbers: readonly number[] }
  | { readonly by: "lot"; readonly lot: string }
  | { readonly by: "stations"; readonly lot: string; readonly folders: readonly string[] }
  | { readonly by: "results"; readonly file: string };

function numbersIn(tests: readonly string[]): Step<Named> {
  const bad = tests.find((text) => !/^[1-9]\d{0,8}$/.test(text));
  if (bad !== undefined) return ended(EXIT.usage, `"${bad}" is no entry number; sievewright log lists them`);
  const numbers = [...new Set(tests.map(Number))];
  if (numbers.length < 2) return ended(EXIT.usage, "give the numbers of two tests at least, or --lot");
  if (numbers.length > MOST_TESTS) return ended(EXIT.usage, `give at most ${MOST_TESTS} tests`);
  return reached({ by: "number", numbers });
}

function named(tests: readonly string[], { lot, stations, results }: ReplicatesOptions): Step<Named> {
  const ways = [tests.length > 0, lot !== undefined, results !== undefined].filter(Boolean).length;
  if (ways > 1) return ended(EXIT.usage, "give either the numbers of tests, or --lot, or --results");
  if (stations !== undefined && lot === undefined)
    return ended(EXIT.usage, "--stations: name the lot that all of them tested with --lot");
  if (results !== undefined) return reached({ by: "results", file: results });
  if (lot === undefined) return numbersIn(tests);
  return reached(stations === undefined ? { by: "lot", lot } : { by: "stations", lot, folders: stations });
}

/** One product alone: a lot's name may stand for two of them. */
function ofOneProduct(tests: readonly RepeatedTest[]): string | null {
  const codes = [...new Set(tests.map(({ product }) => product.code))];
  return codes.length > 1 ? `this lot has tests of ${codes.join(" and ")}: name one with --product` : null;
}

function readTests(store: Store, asked: Named, product: string | undefined): Promise<Outcome<readonly RepeatedTest[]>> {
  if (asked.by === "number") return testsNumbered(store, asked.numbers);
  return testsOfLot(store, asked.by === "lot" ? asked.lot : "", product);
}

async function atOneStation(asked: Named, options: ReplicatesOptions, io: Io): Promise<Ending> {
  const opened = await openForReading(options.data, io);
  if (!opened.ok) return opened.ending;
  const store = opened.value;
  const read = await readTests(store, asked, options.product);
  const { folder, problems } = store;
  await store.close();
  if (!read.ok) return faulty(EXIT.ioError, read.reason);
  const missing =
    asked.by === "number" ? asked.numbers.filter((n) => !read.value.some(({ number }) => number === n)) : [];
  if (missing.length > 0) return faulty(EXIT.notFound, `no. ${missing.join(", ")}: no recorded test in ${folder}`);
  const mixed = asked.by === "lot" ? ofOneProduct(read.value) : null;
  if (mixed !== null) return faulty(EXIT.usage, mixed);
  const told = repeatedTests(read.value);
  if (told.tests.length < 2) {
    const out = told.leftOut.map(({ number, reason }) => `; no. ${number} is left out: ${reason}`).join("");
    return faulty(EXIT.notFound, `${told.tests.length} tests to look at together, it takes two${out}`);
  }
  const look = textLook(io);
  const out = options.json
    ? `${printedJson(replicatesJson(told))}\n`
    : textPage(replicatesPage(told, look.width), look);
  return { code: EXIT.ok, out, remark: () => (problems.length > 0 ? problems.join("; ") : null) };
}

/** `sievewright replicates`: repeated tests of one sample, at one station or at several; changes nothing. */
export async function replicates(tests: readonly string[], options: ReplicatesOptions, io: Io): Promise<Ending> {
  const asked = named(tests, options);
  if (!asked.ok) return asked.ending;
  if (asked.value.by === "results") return replicatesOfResults(asked.value.file, options, io);
  if (asked.value.by === "stations") return replicatesBetween(asked.value, options, io);
  return atOneStation(asked.value, options, io);
}
