import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import type { Outcome } from "../../src/entry/outcome.ts";
import { parseRunOtherwise } from "../../src/entry/programRun.ts";
import { parseMassG } from "../../src/entry/quantity.ts";
import { parseNumber } from "../../src/entry/quantityNumber.ts";
import { AmendedFileSchema } from "../../src/record/indexRow.ts";
import * as kinds from "../../src/record/kinds.ts";
import { LogEntrySchema } from "../../src/record/logEntry.ts";
import { type Kind, readRecord } from "../../src/record/migrate.ts";
import { draftFrom, productDraftKind } from "../../src/record/productDraft.ts";
import {
  readMaterial,
  readProduct,
  readProductContent,
  readProgram,
  readRegisterItem,
  readStack,
} from "../../src/record/readExchanged.ts";
import { readSheet } from "../../src/record/readSheet.ts";
import { nominalText } from "../../src/series/apertureText.ts";
import { apertureOf } from "../../src/series/designation.ts";
import { STANDARD_APERTURES } from "../../src/series/table.ts";
import { codecOf } from "../../src/store/durableFile.ts";
import { manifestFrom, UnfitBackup } from "../../src/store/restoreSource.ts";
import { entryOf } from "../record/everyKind.ts";
import { aList } from "../record/people.ts";
import { FILTER_SAND, TEN_MINUTES } from "../run/hands.ts";
import { recordedRow } from "../screens/stage.ts";
import { busyDraft, station } from "../store/records.ts";
import { decoding, takenApart } from "../terminal/decoding.ts";
import { OBEYED, PROTOTYPE_NAMES, SEQUENCES, UNSEEN } from "./evil.ts";
import { fuzzed, tellsWhatWasTried } from "./fuzz.ts";

vi.setConfig({ testTimeout: 600_000 });
tellsWhatWasTried();

const SHA = "a".repeat(64);
const AT = "2026-11-24T08:31:00+01:00";
const sealed = { number: 1, day: "2026-11-24", station: "TH-DRY1", previous: "0".repeat(64) };
const entries = LogEntrySchema.options.flatMap((option, i) => {
  const kind = option.shape.kind.value;
  return [{ ...entryOf(kind), ...sealed, number: i + 1 }];
});
const refs = [
  { day: "2026-11-24", number: 2, kind: "voided", of: { testId: "t-1", day: "2026-11-24", number: 1 } },
] as const;
const index = {
  schema: "sievewright.index/1",
  month: "2026-11",
  days: { "2026-11-24": { entries: 2, lastSeal: SHA } },
};

/** One whole file of every kind that the station keeps or reads. */
const STORED: readonly (readonly [Kind<unknown>, object])[] = [
  [kinds.stationKind, station],
  [kinds.operatorsKind, aList()],
  [kinds.draftKind, busyDraft("T-1", 3)],
  [kinds.dayKind, { schema: "sievewright.day/1", day: "2026-11-24", entries }],
  [kinds.headKind, { schema: "sievewright.head/1", number: 1, seal: SHA, day: "2026-11-24" }],
  [kinds.indexKind, { ...index, rows: [recordedRow()], amendments: refs }],
  [
    { name: "amended", schema: AmendedFileSchema, lifts: [] },
    {
      schema: "sievewright.amended/1",
      head: { number: 2, day: "2026-11-24" },
      months: { "2026-11": refs },
      tests: [{ later: [2], row: recordedRow() }],
      matters: [],
      sum: SHA,
    },
  ],
  [kinds.productKind, FILTER_SAND],
  [productDraftKind, draftFrom(FILTER_SAND, "KO", AT)],
  [kinds.programKind, TEN_MINUTES],
  [kinds.sieveKind, { schema: "sievewright.sieve/1", serial: "S-1", apertureUm: 500, cloth: "woven wire" }],
  [kinds.stackKind, { schema: "sievewright.stack/1", code: "ST-1", name: "a stack", serials: ["S-1", "S-2"] }],
  [
    kinds.backupKind,
    {
      schema: "sievewright.backup/1",
      station: "TH-DRY1",
      at: AT,
      program: "0.1.0",
      head: { number: 1, seal: SHA },
      files: [{ path: "drafts/T-1.json", bytes: 4, sha256: SHA }],
    },
  ],
];

const nasty = fc.oneof(
  fc.constantFrom<unknown>(
    1e308,
    -1,
    -0,
    0.1,
    1e-320,
    2 ** 53,
    null,
    true,
    "",
    [],
    {},
    [[[]]],
    "\ud800",
    "x".repeat(5000),
  ),
  fc.constantFrom(...SEQUENCES, ...UNSEEN).map(([, text]) => text),
  fc.constantFrom("../x", "/etc/passwd", "C:\\x", "CON", "nul.json", "2026-02-30", "__proto__", "constructor", "=1+1"),
  fc.jsonValue({ stringUnit: "binary" }),
);
const names = fc.oneof(
  fc.constantFrom(...PROTOTYPE_NAMES, "a\nb", "\u009b2J", "x".repeat(500)),
  fc.string({ unit: "binary" }),
);

type Spoil = {
  readonly at: number;
  readonly how: "instead" | "gone" | "more";
  readonly content: unknown;
  readonly name: string;
};
const spoil: fc.Arbitrary<Spoil> = fc.record({
  at: fc.nat(),
  how: fc.constantFrom("instead", "gone", "more"),
  content: nasty,
  name: names,
});

/** The whole with one of its inner values replaced, removed, or with a stranger beside it. */
function spoilt(whole: unknown, { at, how, content, name }: Spoil): unknown {
  const copy: unknown = structuredClone(whole);
  const places: [Record<string, unknown>, string][] = [];
  const visit = (owner: unknown): void => {
    if (typeof owner !== "object" || owner === null) return;
    for (const key of Object.keys(owner)) {
      places.push([owner as Record<string, unknown>, key]);
      visit((owner as Record<string, unknown>)[key]);
    }
  };
  visit(copy);
  const [owner, key] = places[at % places.length] ?? [{}, ""];
  if (how === "gone") delete owner[key];
  else if (how === "more" && Array.isArray(owner))
    owner.push(content); // a list has no names, and its length is not to be set
  else
    Object.defineProperty(owner, how === "more" ? name : key, { value: content, enumerable: true, configurable: true });
  return copy;
}

/** The text with one piece of it replaced by another. */
const cut = fc.record({ at: fc.nat(), gone: fc.nat(12), instead: fc.string({ unit: "binary", maxLength: 4 }) });
const spliced = (text: string, { at, gone, instead }: { at: number; gone: number; instead: string }): string => {
  const start = at % (text.length + 1);
  return text.slice(0, start) + instead + text.slice(start + gone);
};

const oneLine = (reason: string): void => {
  expect(reason).toMatch(/\S/);
  expect(reason).not.toMatch(/[\p{Cc}\u2028\u2029\u202a-\u202e\u2066-\u2069]|\p{Surrogate}/u);
};

describe("every kind of stored file", () => {
  test.each(STORED.map(([kind, whole]) => [kind.name, kind, whole] as const))(
    "%s: is read whole, and printed and read again it is the same",
    (_, kind, whole) => {
      const read = readRecord(JSON.stringify(whole), kind);
      expect(read).toMatchObject({ is: "read" });
      if (read.is === "read") expect(readRecord(codecOf(kind).encode(read.value), kind)).toEqual(read);
    },
  );

  test.each(STORED.map(([kind, whole]) => [kind.name, kind, whole] as const))(
    "%s: spoilt in any way it is read as printed, or refused in one line; nothing throws",
    (name, kind, whole) =>
      fuzzed(
        name,
        60,
        fc.property(spoil, fc.option(cut), (spoiling, cutting) => {
          const json = JSON.stringify(spoilt(whole, spoiling));
          const read = readRecord(cutting === null ? json : spliced(json, cutting), kind);
          if (read.is !== "read") return oneLine(read.why);
          expect(Object.getPrototypeOf(read.value)).toBe(Object.prototype);
          expect(readRecord(JSON.stringify(read.value), kind)).toEqual(read);
        }),
      ),
  );

  test("a manifest of a backup, of any bytes: a manifest, or no fit backup in one line", () =>
    fuzzed(
      "manifest",
      150,
      fc.property(fc.oneof(fc.uint8Array({ maxLength: 300 }), spoil), (given) => {
        const whole = STORED.find(([kind]) => kind === kinds.backupKind)?.[1];
        const bytes = given instanceof Uint8Array ? given : Buffer.from(JSON.stringify(spoilt(whole, given)));
        try {
          expect(manifestFrom(bytes)).toMatchObject({ schema: "sievewright.backup/1" });
        } catch (fault) {
          expect(fault).toBeInstanceOf(UnfitBackup);
          oneLine((fault as Error).message);
        }
      }),
    ));
});

const MATERIAL = {
  schema: "sievewright.referenceMaterial/1",
  code: "TH-RM1",
  name: "invented",
  certificate: { day: "2026-01-10", laboratory: "invented" },
  points: [
    { apertureUm: 1000, passingPct: 80, expandedPct: 1 },
    { apertureUm: 500, passingPct: 20, expandedPct: 1 },
  ],
};

const EXCHANGED = [
  ["product file", readProduct, FILTER_SAND],
  ["product content", readProductContent, draftFrom(FILTER_SAND, "KO", AT)],
  ["program file", readProgram, TEN_MINUTES],
  ["stack file", readStack, STORED.find(([kind]) => kind === kinds.stackKind)?.[1] ?? {}],
  ["register file", readRegisterItem, MATERIAL],
  ["reference material file", readMaterial, MATERIAL],
  [
    "sheet as JSON",
    readSheet,
    {
      schema: "sievewright.sheet/1",
      chargeG: 9,
      weighings: [
        { apertureUm: 500, netG: 3 },
        { pan: true, netG: 6 },
      ],
    },
  ],
] as const;

const PLACED = /^(?:line \d+(?:, column \d+)?|is (?:empty|not UTF-8|larger)|aperture|the )/;

describe("every file that people hand in", () => {
  test.each(EXCHANGED)("%s: spoilt, it is read or refused in one line that says where", (name, reads, whole) =>
    fuzzed(
      name,
      120,
      fc.property(spoil, fc.option(cut), (spoiling, cutting) => {
        const json = JSON.stringify(spoilt(whole, spoiling), null, 1);
        const read: Outcome<unknown> = reads(Buffer.from(cutting === null ? json : spliced(json, cutting)));
        if (read.ok) return;
        oneLine(read.reason);
        expect(read.reason).toMatch(PLACED);
      }),
    ),
  );

  const CSV = "# charge_g: 9.5\n# lot: 4471-B\naperture_um,empty_g,full_g,sieve\n500,400.1,403.2,S-1\npan,300,306.1,\n";
  test("sheet as CSV: spoilt, it is read or refused in one line", () =>
    fuzzed(
      "sheet as CSV",
      400,
      fc.property(fc.array(cut, { minLength: 1, maxLength: 4 }), fc.boolean(), (cuts, marked) => {
        const text = cuts.reduce(spliced, CSV);
        const read = readSheet(Buffer.from((marked ? "\ufeff" : "") + text));
        if (!read.ok) oneLine(read.reason);
      }),
    ));
});

const typed = fc.oneof(
  fc.string({ unit: "binary", maxLength: 40 }),
  fc.string({ unit: fc.constantFrom(..."0123456789.,+-kg eE'_ \t"), maxLength: 14 }),
  fc.constantFrom(
    "1e999",
    "-0",
    "NaN",
    "Infinity",
    "0x10",
    "١٢٣",
    "１２",
    "1_000",
    `${"9".repeat(400)}`,
    "",
    "\0",
    "−5",
  ),
);

describe("what is typed or scanned into a field", () => {
  test("a mass is a finite number of grams, or refused in one line", () =>
    fuzzed(
      "mass",
      500,
      fc.property(typed, fc.constantFrom("point" as const, "comma" as const, undefined), (text, decimal) => {
        for (const read of [parseMassG(text, decimal), parseNumber(text, decimal)]) {
          if (!read.ok) oneLine(read.reason);
          else expect(Number.isFinite(read.value) && !Object.is(read.value, -0)).toBe(true);
        }
      }),
    ));

  test("a mass printed to the milligram is read back the same", () =>
    fuzzed(
      "mass printed",
      200,
      fc.property(fc.integer({ min: 0, max: 9_999_999 }), (mg) => {
        expect(parseMassG((mg / 1000).toFixed(3), "point")).toEqual({ ok: true, value: Number(`${mg}e-3`) });
      }),
    ));

  const designation = fc.oneof(
    fc.string({ unit: "binary", maxLength: 30 }),
    fc.string({ unit: fc.constantFrom(..."0123456789./ -\"'No#inmeshumµ,"), maxLength: 16 }),
    fc.constantFrom(...PROTOTYPE_NAMES, "No. __proto__", "1/0 in.", "0/0 in.", "9".repeat(5000), "1e5 um", "-1 mm"),
  );
  test("the name of a sieve is an aperture between 1 um and 1 m, or refused in one line", () =>
    fuzzed(
      "designation",
      500,
      fc.property(designation, (text) => {
        const read = apertureOf(text);
        if (read.ok) expect(read.value >= 1 && read.value <= 1e6).toBe(true);
        else oneLine(read.reason);
      }),
    ));

  test("the printed name of every standard aperture is read back as it", () => {
    for (const { apertureUm } of STANDARD_APERTURES)
      expect([apertureUm, apertureOf(nominalText(apertureUm))]).toEqual([apertureUm, { ok: true, value: apertureUm }]);
  });

  test("what the shaker did otherwise is settings above 0, or refused in one line", () =>
    fuzzed(
      "run otherwise",
      300,
      fc.property(
        fc.oneof(
          fc.string({ unit: "binary", maxLength: 30 }),
          fc.string({ unit: fc.constantFrom(..."0123456789.,; mghzins"), maxLength: 20 }),
        ),
        (text) => {
          const read = parseRunOtherwise(text);
          if (!read.ok) oneLine(read.reason);
          else for (const setting of Object.values(read.value)) expect(setting).toBeGreaterThan(0);
        },
      ),
    ));
});

describe("bytes of a terminal", () => {
  const bytes = fc.oneof(
    fc.uint8Array({ maxLength: 60 }),
    fc.string({ unit: "binary", maxLength: 30 }).map((text) => new Uint8Array(Buffer.from(text))),
    fc
      .array(
        fc.constantFrom("\x1b", "[", "200~", "201~", "\x1b]", "\x9b", "O", ";5", "~", "\r", "\n", "12.5", "\x1bP", "A"),
        { maxLength: 14 },
      )
      .map((parts) => new Uint8Array(Buffer.from(parts.join(""), "latin1"))),
  );
  test("in any chunks never throw, bring no control character, and swallow no later key", () =>
    fuzzed(
      "terminal bytes",
      400,
      fc.property(fc.array(fc.tuple(bytes, fc.constantFrom(0, 10, 60, 2000)), { maxLength: 6 }), (chunks) => {
        const decoder = decoding();
        for (const [chunk, ms] of chunks) {
          decoder.write(chunk);
          decoder.passes(ms);
        }
        decoder.passes(10_000);
        for (const word of takenApart(decoder.heard())) expect(word).not.toMatch(/\p{Cc}/u);
        decoder.write("7");
        decoder.passes(10_000);
        expect(decoder.heard()).toEqual(["7"]);
      }),
    ));
});

test("the fuzz itself can fail: a reader that lets everything through is found out", async () => {
  const lax = fuzzed(
    "control",
    200,
    fc.property(fc.string({ unit: "binary" }), (text) => !OBEYED.test(text)),
  );
  await expect(lax).rejects.toThrow("Property failed");
});
