import { expect, test, vi } from "vitest";
import { STREAM_ENTRIES } from "../screens/deckStreams.ts";
import { startOperator } from "./operator.ts";
import { QUICK_SAND, stationFolder } from "./stationOf.ts";

vi.setConfig({ testTimeout: 60_000 });

test("three tests marked by function keys in a real terminal open the deck, and Esc leads all the way back", async () => {
  const folder = await stationFolder([QUICK_SAND], Object.values(STREAM_ENTRIES));
  const operator = await startOperator({ args: ["--data", folder] });
  await operator.sees(/feed-1/);
  await operator.presses("l");
  await operator.sees("the whole log");
  await operator.presses("f4", "down", "f3", "down", "f2");
  await operator.sees("F feed feed-1  O oversize over-2  U undersize under-3");
  await operator.presses("f5");
  await operator.sees("overall effectiveness 69.9 % (69.9 %)");
  await operator.presses("escape");
  await operator.sees("F feed feed-1");
  await operator.presses("escape");
  await operator.sees("new");
  await operator.presses("m");
  await operator.sees("the program gives no frequency");
  await operator.presses("ctrl+c");
  expect(await operator.exit()).toBe(0);
});
