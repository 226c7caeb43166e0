import { createHash } from "node:crypto";
import { readProgram } from "../record/readExchanged.ts";
import { programLines } from "../report/programLines.ts";
import { dataFolder } from "../store/dataFolder.ts";
import { drawable, printedJson } from "../terminal/sanitise.ts";
import { done, type Ending, EXIT, faulty } from "./ending.ts";
import { inputFile, inputName } from "./inputFile.ts";
import type { Io } from "./io.ts";
import { newStation } from "./newStation.ts";
import { openForReading } from "./openForReading.ts";
import { openForWriting } from "./openForWriting.ts";
import { initialsIn, type ProductSignerOptions } from "./productSigner.ts";

const LONGEST_FROM = 400;

/** `sievewright program add FILE`: a shaker program into the library, told to the log; one that is there stays as it is. */
export async function programAdd(name: string, options: ProductSignerOptions, io: Io): Promise<Ending> {
  const { data, by: _by, ...signer } = options;
  const by = initialsIn(options, io);
  if (!by.ok) return by.ending;
  const file = await inputFile(name, io);
  if (!file.ok) return file.ending;
  const program = readProgram(file.value);
  if (!program.ok) return faulty(EXIT.badData, `${inputName(name)}: ${program.reason}`);
  const folder = dataFolder(data, io.env);
  const opened = await openForWriting(folder, io, newStation(), signer);
  if (!opened.ok) return opened.ending;
  const store = opened.value;
  const added = await store.addProgram(program.value, {
    fromPath: drawable(inputName(name)).slice(-LONGEST_FROM),
    bytesSha256: createHash("sha256").update(file.value).digest("hex"),
    by: store.session?.initials ?? by.value,
    at: io.now(),
  });
  const { readOnly } = store;
  await store.close();
  if (!added.ok) return faulty(readOnly === null ? EXIT.badData : EXIT.ioError, added.reason);
  const already = added.value === "added" ? "" : " already, unchanged";
  return done(`program ${program.value.code} is in the library of ${folder}${already}\n`);
}

/** `sievewright program list`: the programs of the library, each in the words of the shaker's panel. */
export async function programList(options: { json?: boolean; data?: string }, io: Io): Promise<Ending> {
  const store = await openForReading(options.data, io);
  if (!store.ok) return store.ending;
  const { folder } = store.value;
  const programs = await store.value.programs();
  await store.value.close();
  if (options.json) return done(`${printedJson(programs)}\n`);
  if (programs.length === 0)
    return done(`no programs in the library of ${folder}: load one with "sievewright program add FILE"\n`);
  return done(
    `${programs.map((p) => [p.code, ...programLines(p).map((text) => `  ${text}`)].join("\n")).join("\n")}\n`,
  );
}
