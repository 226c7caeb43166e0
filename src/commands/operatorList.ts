import type { Operators } from "../record/operators.ts";
import { inColumns } from "../report/columns.ts";
import { signOnWords } from "../report/signOnWords.ts";
import { readOperators } from "../store/operatorsFile.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { done, type Ending, EXIT, faulty } from "./ending.ts";
import type { Io } from "./io.ts";
import { readOnlyCabinet } from "./readOnlyCabinet.ts";
import { stationFolder } from "./stationFolder.ts";

/** `sievewright operator list`: who may work at a station; of PINs nothing. */
export async function operatorList(options: { json?: boolean; data?: string }, io: Io): Promise<Ending> {
  const folder = await stationFolder(options.data, io);
  if (!folder.ok) return folder.ending;
  const found = await readOperators(readOnlyCabinet(folder.value));
  if (found.is === "out of reach") return faulty(EXIT.badData, found.why);
  const list = found.is === "read" ? found.content : null;
  return done(options.json ? `${printedJson(shown(list))}\n` : page(list, folder.value));
}

const shown = (list: Operators | null) => ({
  signOn: list?.signOn ?? "none",
  idleMinutes: list?.idleMinutes ?? null,
  people: (list?.people ?? []).map(({ initials, name, role, state, pinSetAt }) => ({
    initials,
    name,
    role,
    state,
    pinSetAt,
  })),
});

function page(list: Operators | null, folder: string): string {
  if (list === null)
    return `${signOnWords("none")}\nno list of people in ${folder}: sievewright operator setup INITIALS makes one\n`;
  const rows = list.people.map(({ initials, name, role, state }) => [initials, name, role, state]);
  const idle = `whoever is signed on is signed off after ${list.idleMinutes} min without a key`;
  return [signOnWords(list.signOn), ...(list.signOn === "required" ? [idle] : []), ...inColumns(rows), ""].join("\n");
}
