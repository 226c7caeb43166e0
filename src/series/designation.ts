import { nominalText } from "./apertureText.ts";
import { found, type Lookup, notFound } from "./lookup.ts";
import { OLDER_US_OPENINGS, olderMeshUm, olderOpening, STANDARD_APERTURES, standardAperture } from "./table.ts";

/** What a designation stands for, and what has to be said about it. */
export interface Designated {
  readonly apertureUm: number;
  readonly notes: readonly string[];
}

const FINEST_UM = 1;
const COARSEST_UM = 1e6;
const US_NUMBER = /^(?:(?:us |sieve )?no\.?|us|#)\s*(\d+(?: 1\/2)?)$/;
const MESH = /^(\d+) ?mesh$/;
const INCHES = /^(?:(\d+)[ -])?(\d+)\/(\d+) ?(?:in\.?|inch(?:es)?|")$|^(\d*\.?\d+) ?(?:in\.?|inch(?:es)?|")$/;
const METRIC = /^(\d*\.?\d+) ?(mm|um|micron|microns|micrometres?)$/;
const BARE = /^\d*\.?\d+$/;

const named = new Map(STANDARD_APERTURES.flatMap((row) => (row.us ? [[row.us.name, row.apertureUm] as const] : [])));
const inches = new Map(
  [...named].flatMap(([name, um]) => (name.endsWith("in.") ? [[inchesOf(name), um] as const] : [])),
);

/**
 * Reads the name of a sieve: `600 um`, `0.6 mm`, `No. 30`, `#30`, `3/8 in.`, `1 1/2"`, `28 mesh`, or a bare number
 * of um. Sieve numbers and inches are names, not measures: 3/8 in. is 9.5 mm. A bare or `mesh` number with two
 * readings is refused with both. An aperture of no standard is allowed and noted; older openings (590 um for
 * No. 30) are kept as written and noted, for old documents map by number.
 *
 * @returns the aperture in um with its notes, or why the text names none
 * @source ASTM E11, ISO 565; status of each row in data/sieve-series.json
 */
export function readDesignation(text: string): Lookup<Designated> {
  const name = text
    .trim()
    .toLowerCase()
    .replace(/[µμ]/gu, "u")
    .replace(/[“”″]|''/gu, '"')
    .replace(",", ".")
    .replace(/\s+/g, " ");
  return (
    byNumber(name) ??
    byMesh(name) ??
    byInches(name) ??
    byMeasure(name) ??
    byBareNumber(name) ??
    notFound(`${shown(text)} names no aperture: write 600 um, 0.6 mm, No. 30 or 3/8 in.`)
  );
}

/**
 * The aperture in um that a designation stands for, or why it stands for none; see `readDesignation` for the notes.
 *
 * @example apertureOf("No. 30") // => { ok: true, value: 600 }
 * @example apertureOf("3/8 in.") // => { ok: true, value: 9500 }
 * @example apertureOf("0,6 mm") // => { ok: true, value: 600 }
 */
export function apertureOf(designation: string): Lookup<number> {
  const read = readDesignation(designation);
  return read.ok ? found(read.value.apertureUm) : read;
}

function byNumber(name: string): Lookup<Designated> | undefined {
  const number = US_NUMBER.exec(name)?.[1];
  if (number === undefined) return undefined;
  const apertureUm = usNumberUm(number);
  if (apertureUm === undefined) return notFound(`ASTM E11 has no sieve No. ${number}`);
  const older = OLDER_US_OPENINGS.find((row) => row.number === number && row.olderUm !== apertureUm);
  return designated(apertureUm, older ? [`older documents give No. ${number} an opening of ${older.olderUm} um`] : []);
}

function byMesh(name: string): Lookup<Designated> | undefined {
  const mesh = MESH.exec(name)?.[1];
  if (mesh === undefined) return undefined;
  const us = usNumberUm(mesh);
  const older = olderMeshUm(Number(mesh));
  if (us === undefined && older === undefined) return notFound(`no sieve of ${mesh} mesh is known: write its aperture`);
  if (us !== undefined && older !== undefined && us !== older)
    return notFound(
      `${mesh} mesh is ${nominalText(us)} as No. ${mesh} but ${nominalText(older)} by the older mesh count: write the aperture`,
    );
  const counted = us === undefined ? "read by the older mesh count (recalled)" : `read as US No. ${mesh}`;
  return designated(us ?? older ?? 0, [counted]);
}

function byInches(name: string): Lookup<Designated> | undefined {
  if (!INCHES.test(name)) return undefined;
  const size = inchesOf(name);
  const apertureUm = inches.get(size);
  if (apertureUm !== undefined) return designated(apertureUm, []);
  return designated(Math.round(size * 25_400), ["no name in ASTM E11: converted at 25.4 mm to the inch"]);
}

function byMeasure(name: string): Lookup<Designated> | undefined {
  const [, number, unit] = METRIC.exec(name) ?? [];
  return number === undefined ? undefined : designated(microns(Number(number), unit === "mm"), []);
}

function byBareNumber(name: string): Lookup<Designated> | undefined {
  if (!BARE.test(name)) return undefined;
  const asNumber = usNumberUm(name);
  if (asNumber !== undefined && !standardAperture(Number(name)))
    return notFound(`${name} can be No. ${name} (${nominalText(asNumber)}) or ${name} um: write which`);
  if (Number(name) < 20) return notFound(`${name} can be mm or um: write the unit`);
  return designated(Number(name), ["a bare number is read as um"]);
}

function designated(apertureUm: number, notes: readonly string[]): Lookup<Designated> {
  if (!(apertureUm >= FINEST_UM && apertureUm <= COARSEST_UM)) return notFound("an aperture lies between 1 um and 1 m");
  return found({ apertureUm, notes: [...notes, ...notesOn(apertureUm)] });
}

/** What has to be said about an aperture that no standard knows; empty for a standard one. */
export function notesOn(apertureUm: number): readonly string[] {
  if (standardAperture(apertureUm)) return [];
  const older = olderOpening(apertureUm);
  if (older === undefined) return [`${nominalText(apertureUm)} is no aperture of ISO 565 or ASTM E11`];
  return [
    `${apertureUm} um is the older opening of No. ${older.number}, today ${nominalText(older.apertureUm)}: old documents map by number`,
  ];
}

const usNumberUm = (number: string): number | undefined => named.get(`No. ${number}`);
const microns = (size: number, inMm: boolean): number => (inMm ? Number((size * 1000).toPrecision(12)) : size);
const shown = (text: string): string => `"${text.slice(0, 30).replace(/[^\p{L}\p{N}\p{P}\p{S} ]/gu, "?")}"`;

function inchesOf(name: string): number {
  const [, whole = "0", top, bottom, decimal] = INCHES.exec(name) ?? [];
  return top === undefined ? Number(decimal) : Number(whole) + Number(top) / Number(bottom);
}
