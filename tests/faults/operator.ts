// A process of its own that weighs and records as fast as the disk lets it, and says what has been promised to it.
// Arguments: the station's folder, a name for its tests. Each line it prints is a promise of the store.
import { writeSync } from "node:fs";
import { openStore } from "../../src/store/openStore.ts";
import { draft, indexRowOf, now, station, testEntry } from "../store/records.ts";

const [folder = "", name = ""] = process.argv.slice(2);
const say = (promise: string): void => void writeSync(1, `${promise}\n`);

const opened = await openStore(folder, { now, indexRowOf, create: station });
if (!opened.ok) throw new Error(opened.reason);
const store = opened.value;
say(`open ${store.readOnly ?? "for writing"}`);
for (const problem of store.problems) say(`problem ${problem}`);
if (store.readOnly === null)
  for (let n = 1; ; n += 1) {
    const testId = `${name}-${n}`;
    for (let weighed = 0; weighed <= 5; weighed += 1)
      if ((await store.saveDraft(draft(testId, weighed))).ok) say(`draft ${testId} ${weighed}`);
    if (n % 4 === 3) continue; // left lying: nobody came back to it
    const recorded = await store.record(testEntry(testId, `2026-11-${24 + (n % 3)}T10:00:00+01:00`));
    if (recorded.ok) say(`entry ${testId} ${recorded.value.number}`);
  }
