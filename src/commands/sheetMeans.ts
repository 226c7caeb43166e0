import { meansOf, otherApertures, type SieveMean } from "../assess/drawnOver.ts";
import { meanAperturesOf, type SerialRow } from "../care/apertureChosen.ts";
import type { MeanAperture } from "../record/meanAperture.ts";
import type { Product } from "../record/product.ts";
import type { Sheet } from "../record/sheet.ts";
import type { Io } from "./io.ts";
import { openForReading } from "./openForReading.ts";
import { dayOf } from "./productNamed.ts";

const NO_REGISTER = "no register could be read: name the folder of the station that has it with --data";

const rowsOf = ({ weighings }: Sheet): { apertureUm: number; serial?: string }[] =>
  weighings.map((row) => ({
    apertureUm: "pan" in row ? 0 : row.apertureUm,
    ...(row.sieve === undefined ? {} : { serial: row.sieve }),
  }));

async function known(rows: readonly SerialRow[], product: Product, data: string | undefined, io: Io) {
  const choice = otherApertures(product);
  if (choice === null) return [];
  const unread = rows.map((row): MeanAperture => ({ ...row, lacks: NO_REGISTER }));
  const store = await openForReading(data, io);
  if (!store.ok) return unread;
  const day = dayOf(io);
  const care = await store.value.care.known(day);
  await store.value.close();
  return meanAperturesOf(rows, choice, care, day);
}

/**
 * The sieves of a weighing sheet with what the station's register and care log know today of their mean apertures, for a
 * product that draws its curve over these; null over nominal ones.
 */
export async function sheetMeans(
  sheet: Sheet,
  product: Product | null,
  data: string | undefined,
  io: Io,
): Promise<readonly SieveMean[] | null> {
  if (product === null || otherApertures(product) === null) return null;
  const rows = rowsOf(sheet);
  const named = rows.flatMap(({ apertureUm, serial }) =>
    serial === undefined || apertureUm === 0 ? [] : [{ apertureUm, serial }],
  );
  return meansOf(rows, named.length === 0 ? [] : await known(named, product, data, io));
}
