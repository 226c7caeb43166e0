import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { z } from "zod";
import { publication, STANDARD_APERTURES } from "../../src/series/table.ts";

const path = join(import.meta.dirname, "../../data/sieve-series.json");
const text = readFileSync(path, "utf8");

const told = {
  status: z.enum(["seen", "memory"]),
  source: z.string().optional(),
};
const um = z.number().positive();
const seenNamesItsSource = (figure: { status: string; source?: string | undefined }) =>
  (figure.status === "seen") === (figure.source !== undefined);

const FileSchema = z.strictObject({
  about: z.array(z.string()).min(1),
  seriesStatus: z.literal("memory"),
  apertures: z.array(
    z.strictObject({
      apertureUm: um,
      series: z.array(z.enum(["ISO 565 R20/3", "ISO 565 R20", "ISO 565 R40/3", "ISO 565 R10"])).min(1),
      us: z
        .strictObject({ name: z.string().regex(/^(No\. \d+( 1\/2)?|[\d /.]+ in\.)$/), ...told })
        .refine(seenNamesItsSource)
        .optional(),
      wire: z.strictObject({ um, ...told }).refine(seenNamesItsSource),
      wireLimits: z
        .strictObject({ fromUm: um, toUm: um, ...told })
        .refine(seenNamesItsSource)
        .optional(),
      tabulated: z
        .strictObject({ meanUm: um, maxUm: um, intermediateUm: um, ...told })
        .refine(seenNamesItsSource)
        .optional(),
      recalled: z
        .strictObject({ meanUm: um, maxUm: um, ...told })
        .refine(seenNamesItsSource)
        .optional(),
    }),
  ),
  olderUsOpenings: z.strictObject({
    why: z.string(),
    ...told,
    rows: z.array(z.strictObject({ number: z.string(), olderUm: um, apertureUm: um })),
  }),
  olderMeshCount: z.strictObject({
    why: z.string(),
    ...told,
    rows: z.array(z.strictObject({ mesh: z.int().positive(), apertureUm: um })),
  }),
  sources: z.record(z.string(), z.string().min(10)),
});

const file = FileSchema.parse(JSON.parse(text));
const inSeries = (name: string) =>
  file.apertures.filter((row) => row.series.some((series) => series === name)).map((row) => row.apertureUm);

describe("the table of apertures", () => {
  test("is read as it lies on disk", () => expect(STANDARD_APERTURES).toEqual(file.apertures));

  test("runs from 125 mm down to 20 um, none twice", () => {
    const apertures = file.apertures.map((row) => row.apertureUm);
    expect(apertures).toEqual([...new Set(apertures)].toSorted((a, b) => b - a));
    expect([apertures[0], apertures.at(-1)]).toEqual([125_000, 20]);
  });

  test("names a publication for every figure seen, and each publication is used", () => {
    const used = [...text.matchAll(/"source": "([^"]+)"/g)].map((match) => match[1]);
    expect(new Set(used)).toEqual(new Set(Object.keys(file.sources)));
  });

  test("cites publications, no addresses", () => expect(text).not.toMatch(/https?:|www\./));

  test("gives the publication in words, and none for what is recalled", () => {
    expect(publication({ status: "seen", source: "phEur8" })).toContain("European Pharmacopoeia");
    expect(publication({ status: "memory" })).toBeUndefined();
  });

  test("knows no US name twice", () => {
    const names = file.apertures.flatMap((row) => (row.us ? [row.us.name] : []));
    expect(names.length).toBe(new Set(names).size);
  });
});

describe("the series", () => {
  test.each([
    { name: "ISO 565 R20/3", step: 10 ** (3 / 20), within: 0.04 },
    { name: "ISO 565 R20", step: 10 ** (1 / 20), within: 0.03 },
    { name: "ISO 565 R40/3", step: 10 ** (3 / 40), within: 0.04 },
  ])("$name falls by its step at every size", ({ name, step, within }) => {
    const sizes = inSeries(name);
    expect(sizes.length).toBeGreaterThan(20);
    sizes.slice(1).forEach((size, i) => {
      const ratio = (sizes[i] ?? 0) / size / step;
      expect(Math.abs(ratio - 1), `${sizes[i]} to ${size}`).toBeLessThan(within);
    });
  });

  test("holds the principal sizes in both supplementary series", () => {
    for (const size of inSeries("ISO 565 R20/3")) {
      expect(inSeries("ISO 565 R20")).toContain(size);
      expect(inSeries("ISO 565 R40/3")).toContain(size);
    }
  });

  test("ends below 45 um in a short tail of R10", () => expect(inSeries("ISO 565 R10")).toEqual([32, 25, 20]));
});

describe("the wires", () => {
  test("lie between a twentieth and the whole of the aperture", () => {
    for (const { apertureUm, wire } of file.apertures) {
      expect(wire.um / apertureUm, `${apertureUm} um`).toBeGreaterThan(0.05);
      expect(wire.um / apertureUm, `${apertureUm} um`).toBeLessThanOrEqual(1);
    }
  });

  test("are never thicker on a finer sieve", () => {
    const wires = file.apertures.map((row) => row.wire.um);
    expect(wires).toEqual(wires.toSorted((a, b) => b - a));
  });

  test("lie inside their printed limits, 15 % either way", () => {
    const limited = file.apertures.filter((row) => row.wireLimits);
    expect(limited.length).toBe(5);
    for (const { wire, wireLimits } of limited) {
      expect(wireLimits?.fromUm).toBeLessThan(wire.um);
      expect(wireLimits?.toUm).toBeGreaterThan(wire.um);
      expect(Math.abs((wireLimits?.fromUm ?? 0) / wire.um - 0.85)).toBeLessThan(0.05);
      expect(Math.abs((wireLimits?.toUm ?? 0) / wire.um - 1.15)).toBeLessThan(0.07);
    }
  });
});

describe("older names", () => {
  test("map to apertures of the table", () => {
    const known = new Set(file.apertures.map((row) => row.apertureUm));
    for (const row of [...file.olderUsOpenings.rows, ...file.olderMeshCount.rows])
      expect(known.has(row.apertureUm), `${row.apertureUm} um`).toBe(true);
  });

  test("of US numbers differ from today's opening by 2 % at most", () => {
    for (const { olderUm, apertureUm } of file.olderUsOpenings.rows)
      expect(Math.abs(olderUm / apertureUm - 1)).toBeLessThan(0.02);
  });

  test("of the mesh count halve with every second step", () => {
    const rows = file.olderMeshCount.rows;
    rows.slice(2).forEach((row, i) => {
      expect(Math.abs((rows[i]?.apertureUm ?? 0) / row.apertureUm / 2 - 1), `${row.mesh} mesh`).toBeLessThan(0.02);
    });
  });
});
