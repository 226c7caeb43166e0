import type { Sheet } from "../../src/record/sheet.ts";

export const bytesOf = (text: string) => new TextEncoder().encode(text);

/** How a sheet may be written as CSV. */
export interface CsvLook {
  readonly separator: "," | ";";
  readonly comma: boolean;
  readonly inMm: boolean;
  readonly lineEnd: string;
  readonly bom: boolean;
}

const keyNames = [
  ["product", "product"],
  ["lot", "lot"],
  ["line", "line"],
  ["charge_g", "chargeG"],
  ["washed_g", "washedG"],
  ["moisture_pct", "moisturePct"],
] as const;

/** Prints a sheet whose rows are all of one kind; the masses and apertures have at most three decimals. */
export function printSheetCsv(sheet: Sheet, look: CsvLook): string {
  const number = (n: number) => (look.comma && look.separator === ";" ? n.toFixed(4).replace(".", ",") : n.toFixed(4));
  const aperture = (um: number) =>
    (look.inMm ? (um / 1000).toFixed(6) : um.toFixed(3)).replace(".", number(0).charAt(1));
  const keys = keyNames.flatMap(([key, field]) => {
    const entry = sheet[field];
    if (entry === undefined) return [];
    return [`# ${key}: ${typeof entry === "number" ? number(entry) : `"${entry.replaceAll('"', '""')}"`}`];
  });
  const masses = sheet.weighings.some((row) => "netG" in row) ? ["net_g"] : ["empty_g", "full_g"];
  const header = [look.inMm ? "aperture_mm" : "aperture_um", ...masses, "sieve"];
  const rows = sheet.weighings.map((row) => [
    "pan" in row ? "pan" : aperture(row.apertureUm),
    ...("netG" in row ? [number(row.netG)] : [number(row.emptyG), number(row.fullG)]),
    row.sieve ?? "",
  ]);
  const lines = [...keys, ...[header, ...rows].map((cells) => cells.join(look.separator))];
  return (look.bom ? "\uFEFF" : "") + lines.map((line) => line + look.lineEnd).join("");
}
