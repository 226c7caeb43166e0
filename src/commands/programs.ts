import { readProgram } from "../record/readExchanged.ts";
import { programLines } from "../report/programLines.ts";
import { dataFolder } from "../store/dataFolder.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { done, type Ending, EXIT, faulty } from "./ending.ts";
import { inputFile, inputName } from "./inputFile.ts";
import type { Io } from "./io.ts";
import { newStation } from "./newStation.ts";
import { openForWriting } from "./openForWriting.ts";
import type { SignerOptions } from "./signer.ts";
import { stationFolder } from "./stationFolder.ts";

/** `sievewright program add FILE`: a shaker program into the library. Tests keep the program they were set out with. */
export async function programAdd(
  name: string,
  { data, ...signer }: SignerOptions & { data?: string },
  io: Io,
): Promise<Ending> {
  const file = await inputFile(name, io);
  if (!file.ok) return file.ending;
  const program = readProgram(file.value);
  if (!program.ok) return faulty(EXIT.badData, `${inputName(name)}: ${program.reason}`);
  const folder = dataFolder(data, io.env);
  const store = await openForWriting(folder, io, newStation(), signer);
  if (!store.ok) return store.ending;
  const added = await store.value.addProgram(program.value);
  await store.value.close();
  return added.ok
    ? done(`program ${program.value.code} is in the library of ${folder}\n`)
    : faulty(EXIT.ioError, added.reason);
}

/** `sievewright program list`: the programs of the library, each in the words of the shaker's panel. */
export async function programList(options: { json?: boolean; data?: string }, io: Io): Promise<Ending> {
  const folder = await stationFolder(options.data, io);
  if (!folder.ok) return folder.ending;
  const store = await openForWriting(folder.value, io);
  if (!store.ok) return store.ending;
  const programs = await store.value.programs();
  await store.value.close();
  if (options.json) return done(`${printedJson(programs)}\n`);
  if (programs.length === 0)
    return done(`no programs in the library of ${folder.value}: load one with "sievewright program add FILE"\n`);
  return done(
    `${programs.map((p) => [p.code, ...programLines(p).map((text) => `  ${text}`)].join("\n")).join("\n")}\n`,
  );
}
