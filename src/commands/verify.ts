import { verifyLog } from "../store/verify.ts";
import { SIGNS } from "../terminal/signs.ts";
import { done, type Ending, EXIT } from "./ending.ts";
import type { Io } from "./io.ts";
import { stationFolder } from "./stationFolder.ts";

/** `sievewright verify`: the chain of the log from end to end; exit 0 if it is unbroken, 1 if not. */
export async function verify(options: { json?: boolean; data?: string }, io: Io): Promise<Ending> {
  const folder = await stationFolder(options.data, io);
  if (!folder.ok) return folder.ending;
  const verified = await verifyLog(folder.value);
  const code = verified.ok ? EXIT.ok : EXIT.fail;
  if (options.json) return done(`${JSON.stringify(verified)}\n`, code);
  const { entries, head, firstBroken } = verified;
  const count = `${entries} ${entries === 1 ? "entry" : "entries"}`;
  const end = head ? `head: entry ${head.number}, seal ${head.seal}` : "the log is empty";
  if (!firstBroken) return done(`UNBROKEN ${SIGNS.pass}  ${count}\n${end}\n`, code);
  const { entry, file, how } = firstBroken;
  return done(`BROKEN ${SIGNS.fail}  ${count}\nentry ${entry} in ${file} ${how}\n${end}\n`, code);
}
