import { type SheetMasses, sheetMasses } from "../grading/sheetMasses.ts";
import { readSheet } from "../record/readSheet.ts";
import type { Sheet } from "../record/sheet.ts";
import { EXIT, ended, reached, type Step } from "./ending.ts";
import { inputFile, inputName } from "./inputFile.ts";
import type { Io } from "./io.ts";

/** A sheet does not say what balance it was weighed on: one that reads 0.01 g is taken. */
export const READABILITY_G = 0.01;

export interface WeighedSheet {
  readonly sheet: Sheet;
  readonly masses: SheetMasses;
}

/** The weighing sheet of that name with its net masses, or how the command ends here. */
export async function weighedSheet(name: string, io: Pick<Io, "stdin">): Promise<Step<WeighedSheet>> {
  const file = await inputFile(name, io);
  if (!file.ok) return file;
  const read = readSheet(file.value);
  if (!read.ok) return ended(EXIT.badData, `${inputName(name)}: ${read.reason}`);
  const masses = sheetMasses(read.value, READABILITY_G);
  if (!masses.ok) return ended(EXIT.badData, `${inputName(name)}: ${masses.reason}`);
  return reached({ sheet: read.value.sheet, masses: masses.value });
}
