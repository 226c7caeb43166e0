import { Low } from "lowdb";
import { type AmendedFile, AmendedFileSchema } from "../record/indexRow.ts";
import type { Kind } from "../record/migrate.ts";
import { type Cabinet, readFrom, report } from "./cabinet.ts";
import { diskTrouble } from "./diskWords.ts";
import { durableFile } from "./durableFile.ts";
import { amendedPath } from "./layout.ts";
import { summedCodec } from "./summedCodec.ts";

const kind: Kind<AmendedFile> = { name: "amended", schema: AmendedFileSchema, lifts: [] };

/** What `index/amended.json` keeps, without the sum over it. */
export type AmendedContent = Omit<AmendedFile, "sum">;

const codec = summedCodec(kind);

/** When the file was written, in ms; null when there is none. */
export const amendedAtMs = ({ folder, disk }: Cabinet): Promise<number | null> =>
  disk.modifiedAtMs(amendedPath(folder));

/** The file as it was written; null when there is none, or when it is not as it was written. */
export async function readAmended(cabinet: Cabinet): Promise<AmendedContent | null> {
  const checked = codec.checked();
  const found = await readFrom(cabinet, amendedPath(cabinet.folder), checked);
  return found.is === "read" && checked.isAsWritten() ? found.content : null;
}

/** No record, as the index is none: that it could not be written is told, and it is drawn again when next needed. */
export async function writeAmended(cabinet: Cabinet, content: AmendedContent): Promise<void> {
  try {
    await new Low(durableFile(amendedPath(cabinet.folder), codec, cabinet.disk), content).write();
  } catch (fault) {
    report(cabinet, diskTrouble(fault, "index/amended.json is behind and is drawn again later"));
  }
}
