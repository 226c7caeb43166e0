import { printedJson } from "../terminal/sanitise.ts";
import { done, type Ending, EXIT, faulty } from "./ending.ts";
import type { Io } from "./io.ts";
import { openForWriting } from "./openForWriting.ts";
import { stationFolder } from "./stationFolder.ts";

/** `sievewright reindex`: the index drawn again from the log. */
export async function reindex(options: { json?: boolean; data?: string }, io: Io): Promise<Ending> {
  const folder = await stationFolder(options.data, io);
  if (!folder.ok) return folder.ending;
  const store = await openForWriting(folder.value, io);
  if (!store.ok) return store.ending;
  const drawn = await store.value.reindex();
  await store.value.close();
  if (!drawn.ok) return faulty(EXIT.ioError, drawn.reason);
  const { months, entries } = drawn.value;
  return done(
    options.json ? `${printedJson(drawn.value, 0)}\n` : `index drawn again, entries: ${entries}, months: ${months}\n`,
  );
}
