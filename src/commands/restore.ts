import { dirname, join } from "node:path";
import type { Outcome } from "../entry/outcome.ts";
import { accepted, refused } from "../entry/outcome.ts";
import { shortSeal } from "../record/seal.ts";
import { dataFolder } from "../store/dataFolder.ts";
import { type NotRestored, type Restored, restoreBackup, type Told } from "../store/restore.ts";
import { drawable, printedJson } from "../terminal/sanitise.ts";
import { actorOf } from "./actor.ts";
import { done, type Ending, EXIT, type FaultCode, faulty } from "./ending.ts";
import { giveWay } from "./giveWay.ts";
import type { Io } from "./io.ts";
import { openForWriting } from "./openForWriting.ts";
import type { SignerOptions } from "./signer.ts";
import { folderNow } from "./stationClock.ts";

export interface RestoreOptions extends SignerOptions {
  readonly json?: boolean;
  readonly data?: string;
  readonly replace?: boolean;
  readonly despiteNewer?: boolean;
  readonly despiteBroken?: boolean;
}

const CODES: Readonly<Record<NotRestored["why"], FaultCode>> = {
  unfit: EXIT.badData,
  "in the way": EXIT.usage,
  disk: EXIT.ioError,
};
const LONGEST_FROM = 400;

/** `sievewright restore BACKUP`: a station put back from a copy, once all of the copy is proven. */
export async function restore(backup: string, options: RestoreOptions, io: Io): Promise<Ending> {
  const folder = dataFolder(options.data, io.env);
  let ending: Ending | null = null;
  const restored = await restoreBackup({
    backup,
    folder,
    now: await folderNow(folder, io),
    replace: options.replace === true,
    despiteNewer: options.despiteNewer === true,
    despiteBroken: options.despiteBroken === true,
    giveWay: async (there, to) => {
      const agreed = await giveWay(there, to, options, io);
      if (agreed.ok) return accepted(undefined);
      ending = agreed.ending;
      return refused("the station that is there does not give way");
    },
    tell: async (staged, told) => {
      const outcome = await tell(staged, told, options, io);
      if (!outcome.ok && "ending" in outcome) ending = outcome.ending;
      return outcome;
    },
  });
  if (ending !== null) return ending;
  if (!restored.ok) return faulty(CODES[restored.why], restored.reason);
  const { manifest, keptIn, vanished } = restored.value;
  const kept = keptIn === null ? null : join(dirname(folder), keptIn);
  if (options.json)
    return done(`${printedJson({ files: manifest.files.length, head: manifest.head, keptIn: kept, vanished }, 0)}\n`);
  return done(page(folder, restored.value, kept));
}

/** Records in the restored log where it comes from, by somebody who may, and draws its index. */
async function tell(
  folder: string,
  told: Told,
  options: RestoreOptions,
  io: Io,
): Promise<Outcome<void> | { readonly ok: false; readonly reason: string; readonly ending: Ending }> {
  const store = await openForWriting(folder, io, undefined, options);
  if (!store.ok) return { ok: false, reason: "the restored station can't be opened", ending: store.ending };
  const by = actorOf(store.value, options, io);
  const from = drawable(told.from).slice(-LONGEST_FROM);
  const entry = await store.value.record({ kind: "restored", at: io.now(), by, ...told, from });
  const drawn = entry.ok ? await store.value.reindex() : entry;
  await store.value.close();
  if (entry.ok) return drawn.ok ? accepted(undefined) : refused(drawn.reason);
  return { ok: false, reason: entry.reason, ending: faulty(EXIT.notPermitted, entry.reason) };
}

function page(folder: string, { manifest, vanished }: Restored, kept: string | null): string {
  const { station, at, files, head } = manifest;
  return [
    `${station} restored to ${folder}: ${files.length} files, as of ${at.slice(0, 16).replace("T", " ")}`,
    head.number === 0
      ? "its log was empty"
      : `its log was proven up to entry ${head.number}, seal ${shortSeal(head.seal)}`,
    ...(kept === null ? [] : [`the station that was there is kept in ${kept}`]),
    ...(vanished === null ? [] : [`in there alone, and not in the restored log: ${vanished}`]),
    "recorded in the log of the restored station; prove it with: sievewright verify",
    "",
  ].join("\n");
}
