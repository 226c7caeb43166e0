import { Low } from "lowdb";
import { type AmendedFile, AmendedFileSchema } from "../record/indexRow.ts";
import { type Kind, readRecord } from "../record/migrate.ts";
import { sha256Of } from "../record/seal.ts";
import { type Cabinet, readFrom, report } from "./cabinet.ts";
import { diskTrouble } from "./diskWords.ts";
import { type Codec, durableFile } from "./durableFile.ts";
import { amendedPath } from "./layout.ts";
import { plainJson } from "./plainJson.ts";

const kind: Kind<AmendedFile> = { name: "amended", schema: AmendedFileSchema, lifts: [] };

/** What `index/amended.json` keeps, without the sum over it. */
export type AmendedContent = Omit<AmendedFile, "sum">;

const SUMMED = /^\{\n {2}"sum": "([0-9a-f]{64})",\n/;

/** The sum stands in the first line and is of all the text behind it, so that nothing has to be put in order for it. */
const codec: Codec<AmendedContent> = {
  encode: (content) => {
    const text = `${plainJson(content).replace(/^\{\n/, "")}\n`;
    return `{\n  "sum": "${sha256Of(text)}",\n${text}`;
  },
  decode: (text) => readRecord(text, kind),
};

/** Whether a text is as it was written. */
const isAsWritten = (text: string): boolean => {
  const [start, sum] = SUMMED.exec(text) ?? [];
  return start !== undefined && sha256Of(text.slice(start.length)) === sum;
};

/** When the file was written, in ms; null when there is none. */
export const amendedAtMs = ({ folder, disk }: Cabinet): Promise<number | null> =>
  disk.modifiedAtMs(amendedPath(folder));

/** The file as it was written; null when there is none, or when it is not as it was written. */
export async function readAmended(cabinet: Cabinet): Promise<AmendedContent | null> {
  let asWritten = false;
  const checked: Codec<AmendedContent> = {
    ...codec,
    decode: (text) => {
      asWritten = isAsWritten(text);
      return codec.decode(text);
    },
  };
  const found = await readFrom(cabinet, amendedPath(cabinet.folder), checked);
  return found.is === "read" && asWritten ? found.content : null;
}

/** No record, as the index is none: that it could not be written is told, and it is drawn again when next needed. */
export async function writeAmended(cabinet: Cabinet, content: AmendedContent): Promise<void> {
  try {
    await new Low(durableFile(amendedPath(cabinet.folder), codec, cabinet.disk), content).write();
  } catch (fault) {
    report(cabinet, diskTrouble(fault, "index/amended.json is behind and is drawn again later"));
  }
}
