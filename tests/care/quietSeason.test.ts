import { expect, test } from "vitest";
import { type StationConditions, stationConditions } from "../../src/care/conditions.ts";
import { emptyLedger } from "../../src/care/ledger/ledger.ts";
import { take } from "../../src/care/ledger/take.ts";
import { registerOf } from "../../src/care/register/register.ts";
import type { LogEntry, NewEntry } from "../../src/record/logEntry.ts";
import type { RegisterItem } from "../../src/record/register.ts";
import { FILTER_SET, seasonRegister, seasonTests } from "../store/careSeason.ts";

const TESTS = 500;
const season = { tests: TESTS, untilMs: Date.UTC(2026, 10, 24, 3), seed: 20261124 };
const DAY = "2026-11-24";
/** As the demo station has it: the balance's readability, and its repeatability by the register. */
const POLICY = { balance: { readabilityG: 0.01, repeatabilityG: 0.01 } };

const isOfSet = (item: RegisterItem): boolean =>
  (item.schema === "sievewright.sieve/1" && FILTER_SET.serials.includes(item.serial)) ||
  (item.schema === "sievewright.stack/1" && item.code === FILTER_SET.code);

/** What the empty masses have the operator told now: of each sieve its state, of all together what moved. */
function said({ sieves }: StationConditions): string[] {
  const own = sieves.flatMap(({ serial, tare }) => (tare?.advice == null ? [] : [`${serial} ${tare.state}`]));
  const together = sieves.flatMap((one) => (one.together === null ? [] : [`all ${one.together.cause}`]));
  return [...new Set([...own, ...together])];
}

/** An entry as the log holds it, as far as the ledger looks at it. */
const logged = (entry: NewEntry, number: number): LogEntry =>
  ({ ...entry, number, day: entry.at.slice(0, 10), station: "TH-DRY1", previous: "0".repeat(64) }) as LogEntry;

test("500 tests of the demo plant with nothing wrong: almost nothing is said of sieves and balance", async ({
  annotate,
}) => {
  const ledger = emptyLedger();
  const entries = [...seasonRegister(season), ...seasonTests(season)];
  const items = entries.flatMap((entry) => (entry.kind === "registered" && isOfSet(entry.item) ? [entry.item] : []));
  const register = registerOf(items);
  let standing: readonly string[] = [];
  const told: { readonly entry: number; readonly what: string }[] = [];
  for (const [i, entry] of entries.entries()) {
    take(ledger, logged(entry, i + 1));
    if (entry.kind !== "test") continue;
    const now = said(stationConditions(register, ledger, POLICY, DAY));
    told.push(...now.filter((what) => !standing.includes(what)).map((what) => ({ entry: i + 1, what })));
    standing = now;
  }
  expect(entries.filter(({ kind }) => kind === "test")).toHaveLength(TESTS);
  expect(ledger.lives.get("S-0500-1")?.ever.tests).toBe(TESTS);
  const odd = told.filter(({ what }) => what.endsWith(" odd"));
  const alarms = told.filter(({ what }) => !what.endsWith(" odd"));
  await annotate(`${TESTS} tests, ${5 * TESTS} empty weighings: ${alarms.length} alarms, ${odd.length} to weigh again`);
  expect(alarms.length).toBeLessThanOrEqual(1);
  expect(odd.length).toBeLessThanOrEqual(2);
});
