import seriesFile from "../../data/sieve-series.json" with { type: "json" };

type Recorded = "seen" | "memory";
interface Told {
  readonly status: Recorded;
  /** Key of the table of publications; none for what is recalled. */
  readonly source?: string;
}

/** One standard aperture as the reference table holds it; lengths in um. */
export interface StandardAperture {
  readonly apertureUm: number;
  readonly series: readonly string[];
  /** Its name in ASTM E11 (`No. 30`, `3/8 in.`), for apertures of that standard. */
  readonly us?: Told & { readonly name: string };
  readonly wire: Told & { readonly um: number };
  readonly wireLimits?: Told & { readonly fromUm: number; readonly toUm: number };
  /** Limits as printed in a table that was seen. */
  readonly tabulated?: Told & { readonly meanUm: number; readonly maxUm: number; readonly intermediateUm: number };
  /** Limits of ASTM E11 as recalled. */
  readonly recalled?: Told & { readonly meanUm: number; readonly maxUm: number };
}

interface SeriesFile {
  readonly apertures: readonly StandardAperture[];
  readonly olderUsOpenings: Told & { readonly rows: readonly OlderOpening[] };
  readonly olderMeshCount: Told & { readonly rows: readonly { readonly mesh: number; readonly apertureUm: number }[] };
  readonly sources: Readonly<Record<string, string>>;
}

/** An opening under which older documents know a sieve number. */
export interface OlderOpening {
  readonly number: string;
  readonly olderUm: number;
  readonly apertureUm: number;
}

// The file is bundled; a test reads it with a strict schema, so that no start has to.
const file = seriesFile as SeriesFile;

/** Coarsest first. */
export const STANDARD_APERTURES = file.apertures;
export const OLDER_US_OPENINGS = file.olderUsOpenings.rows;

const byAperture = new Map(STANDARD_APERTURES.map((row) => [row.apertureUm, row]));
const byMesh = new Map(file.olderMeshCount.rows.map((row) => [row.mesh, row.apertureUm]));
const byOlder = new Map(OLDER_US_OPENINGS.filter((r) => r.olderUm !== r.apertureUm).map((r) => [r.olderUm, r]));

/** The row of a standard aperture in um; undefined for any other size. */
export const standardAperture = (apertureUm: number): StandardAperture | undefined => byAperture.get(apertureUm);

/** The aperture in um of an older mesh count (steps of the root of two from 200 mesh); undefined if it has none. */
export const olderMeshUm = (mesh: number): number | undefined => byMesh.get(mesh);

/** The older opening of this size, e.g. 590 um for No. 30, where today's sieve of that number differs. */
export const olderOpening = (openingUm: number): OlderOpening | undefined => byOlder.get(openingUm);

/** Publications in which figures of the table were seen. */
export const PUBLICATIONS: readonly string[] = Object.values(file.sources);

/** The publication behind a recorded figure, in words; undefined for a recalled one. */
export const publication = (told: Told): string | undefined => (told.source ? file.sources[told.source] : undefined);
