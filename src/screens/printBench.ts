import { assessTest } from "../assess/assessTest.ts";
import { currentTest } from "../record/versions.ts";
import { decimalsOf } from "../report/figures.ts";
import { resultPage } from "../report/page.ts";
import { pageCurve } from "../report/pageCurve.ts";
import { signOnWords } from "../report/signOnWords.ts";
import type { Store } from "../store/store.ts";
import { momentText } from "../words/figures.ts";
import { say } from "../words/say.ts";
import { spoken } from "../words/spoken.ts";
import { benchRoom } from "./bench/benchRoom.ts";
import { textOf } from "./line.ts";
import { startingApp, withLibraryAndLog } from "./reading.ts";

const WIDTH = 80;
const BENCH_ROWS = 24;

async function lastResult(store: Store, printed: string): Promise<string> {
  const [row] = await store.recentRows(1);
  const history = row ? await store.history(row) : null;
  if (!history?.ok) return "";
  const test = currentTest(history.value);
  const assessed = assessTest(test);
  if (!assessed.ok) return assessed.reason;
  const head = {
    product: test.product,
    lot: test.lot,
    line: test.line,
    printed,
    decimals: decimalsOf(test.balance.readabilityG),
  };
  return resultPage(assessed.value, head, {
    width: WIDTH,
    curve: pageCurve(assessed.value, test.product, WIDTH, false),
  });
}

/** The bench and the latest result as a page of text, for where there is no terminal. */
export async function printedBench(store: Store, now: string, programVersion: string): Promise<string> {
  const app = await withLibraryAndLog(startingApp(store, now, programVersion), store);
  const { left } = benchRoom.title(app);
  const bench = benchRoom.body(app, { columns: WIDTH, rows: BENCH_ROWS }).map((l) => textOf(l).trimEnd());
  const result = await lastResult(
    store,
    say`${spoken(signOnWords(app.people.rule))}\nprinted ${momentText(now)} by Sievewright ${programVersion}`,
  );
  return [left, ...bench, "", result].join("\n");
}
