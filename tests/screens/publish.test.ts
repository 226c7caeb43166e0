import { describe, expect, test } from "vitest";
import type { Product } from "../../src/record/product.ts";
import { draftFrom, publishedFrom } from "../../src/record/productDraft.ts";
import { ticked } from "../../src/screens/answers.ts";
import type { App } from "../../src/screens/place.ts";
import { followDay, withInForce } from "../../src/screens/products/inForce.ts";
import {
  draftOpened,
  libraryRead,
  productDraftDiscarded,
  productPublished,
  sharedImported,
} from "../../src/screens/products/productAnswers.ts";
import { productShelf } from "../../src/store/productShelf.ts";
import type { ImportReport } from "../../src/store/sharedReport.ts";
import { columnsOf } from "../../src/terminal/sanitise.ts";
import { BARLEY, FILTER_SAND } from "../run/hands.ts";
import { anApp, STATION, Stage } from "./stage.ts";

const AT = "2026-11-24T03:00:00+01:00";
const DRAFT = {
  ...draftFrom(FILTER_SAND, "KO", AT),
  envelope: [
    { apertureUm: 1400, passingPct: { min: 96, max: 100 } },
    { apertureUm: 1000, passingPct: { min: 75, max: 95 } },
  ],
};
const NEXT = publishedFrom(DRAFT, { by: "SB", at: AT, effective: "2026-12-01", reason: "customer asks for it" });
const drafting = { draft: DRAFT, past: [], onDisk: true };
const pageOf = (product: Product, change: Partial<App> = {}) =>
  new Stage(
    anApp({
      place: { name: "product", product },
      behind: [
        { name: "bench", at: 0 },
        { name: "products", filter: "", at: 0 },
      ],
      ...change,
    }),
  );
const withDraft = () => pageOf(FILTER_SAND, { productDrafts: [drafting] });

describe("the page of a product", () => {
  test("e asks who writes the next revision, and then asks for the draft", () => {
    const stage = pageOf(FILTER_SAND).types("e");
    expect(stage.screen()).toContain("who writes the next revision? KO▌");
    stage.presses("enter");
    expect(stage.effects).toEqual([{ do: "draftProduct", code: "TH-0510", by: "KO" }]);
  });

  test("takes other initials; those that nobody has at this station take a second Enter", () => {
    const stage = pageOf(FILTER_SAND).types("e").enters("XY");
    expect(stage.app.message).toMatch(/XY is not known at this station/);
    expect(stage.presses("enter").effects).toEqual([{ do: "draftProduct", code: "TH-0510", by: "XY" }]);
  });

  test("where somebody is signed on nobody is asked", () => {
    const session = { initials: "SB", name: "S. Baro", role: "quality" } as const;
    expect(pageOf(FILTER_SAND, { session }).types("e").effects).toEqual([
      { do: "draftProduct", code: "TH-0510", by: "SB" },
    ]);
  });

  test("where nothing may be written there is no draft, and the page says why", () => {
    const stage = pageOf(FILTER_SAND, { readOnly: "another window has this station" }).types("e");
    expect(stage.app.message).toBe("another window has this station");
  });

  test("tells of the draft, who wrote at it and since when; d discards it", () => {
    const stage = withDraft();
    expect(stage.screen()).toContain("draft of revision 4 by KO since 2026-11-24");
    expect(stage.types("d").effects).toEqual([{ do: "discardProductDraft", code: "TH-0510" }]);
    stage.app = productDraftDiscarded(stage.app, "TH-0510", "x.discarded");
    expect(stage.app.message).toContain("kept as x.discarded");
    expect(stage.types("p").app.message).toMatch(/^there is no draft of TH-0510/);
  });

  test("says why there is a revision, and in words where its writer let it go", () => {
    const screen = pageOf({ ...NEXT, author: "SB" }, { revisions: [FILTER_SAND, NEXT] }).screen();
    expect(screen).toContain("written by SB · approved by SB");
    expect(screen).toContain("because: customer asks for it");
    expect(screen).toContain("! written and approved by the same person");
    expect(pageOf(NEXT).screen()).not.toContain("same person");
  });

  test("leads through the revisions and says how each stands today", () => {
    const old = { ...FILTER_SAND, revision: 2 };
    const stage = pageOf(FILTER_SAND, { revisions: [old, FILTER_SAND, NEXT, BARLEY] });
    expect(stage.screen()).toContain("revision 3 · in force");
    expect(stage.presses("left").screen()).toContain("revision 2 · replaced");
    expect(stage.presses("left").app.message).toBe("no earlier revision here");
    expect(stage.presses("right", "right").screen()).toContain("revision 4 · from 2026-12-01");
  });

  test("c tells what it changed against the one before; left goes further back", () => {
    const first = { ...FILTER_SAND, revision: 1, stackUm: [1400, 1000] };
    const stage = pageOf(NEXT, { revisions: [first, FILTER_SAND, NEXT] }).types("c");
    expect(stage.screen()).toContain("TH-0510 revision 3 → revision 4");
    expect(stage.screen()).toContain("passing at 1.40 mm: at least 95 % -> 96 %");
    expect(stage.screen()).toContain('reason none -> "customer asks for it"');
    expect(stage.presses("left").screen()).toContain("revision 1 → revision 4");
    expect(stage.screen()).toContain("stack: 710 um added");
    expect(stage.presses("escape").app.place.name).toBe("product");
    expect(pageOf(FILTER_SAND).types("c").app.message).toMatch(/no earlier revision/);
  });
});

describe("publishing", () => {
  const publishing = () => withDraft().types("p");

  test("shows what changes, asks why, from when and who, and asks for it to be done", () => {
    const stage = publishing();
    expect(stage.screen()).toContain("publish TH-0510 revision 4");
    expect(stage.screen()).toContain("passing at 1.40 mm: at least 95 % -> 96 %");
    stage.enters("customer asks for it").enters("2026-12-01").enters("SB");
    expect(stage.app.message).toMatch(/SB is not known/);
    stage.presses("enter");
    expect(stage.effects).toEqual([
      {
        do: "publishProduct",
        code: "TH-0510",
        release: { by: "SB", at: stage.now(), effective: "2026-12-01", reason: "customer asks for it" },
      },
    ]);
  });

  test("takes the production day for today where no day is typed", () => {
    const stage = publishing().enters("finer").presses("enter", "enter");
    // 03:12 belongs to the day before, which began at six in the morning.
    expect(stage.effects.at(-1)).toMatchObject({ release: { effective: "2026-11-23", by: "KO" } });
  });

  test("goes on only with a reason and a day that is none of the past", () => {
    const stage = publishing().enters("x");
    expect(stage.app.message).toBe("say in words why there is a new revision");
    stage.enters("y and z").enters("soon");
    expect(stage.app.message).toMatch(/"soon" is no day/);
    for (let i = 0; i < 4; i++) stage.presses("backspace");
    expect(stage.enters("2026-11-22").app.message).toMatch(/2026-11-22 is past/);
    expect(stage.effects).toEqual([]);
  });

  test("says in words that writer and approver are one, before it is done", () => {
    const stage = publishing();
    expect(stage.screen()).toContain("written and approved by the same person (KO)");
    stage.enters("finer").presses("enter").types("SB");
    expect(stage.screen()).not.toContain("same person");
  });

  test("tells limits that no curve can meet", () => {
    const envelope = [
      { apertureUm: 710, passingPct: { max: 70 } },
      { apertureUm: 500, passingPct: { min: 80 } },
    ];
    const stage = pageOf(FILTER_SAND, { productDrafts: [{ ...drafting, draft: { ...DRAFT, envelope } }] }).types("p");
    expect(stage.screen({ columns: 120, rows: 40 })).toContain("no curve does both");
  });

  test("goes back a field at a time, and leaves the draft as it was", () => {
    const stage = publishing().enters("finer").presses("enter", "escape", "escape");
    expect(stage.app.place).toMatchObject({ name: "publish", field: "reason", reason: "finer" });
    stage.presses("escape");
    expect(stage.app.place.name).toBe("product");
    expect(stage.app.productDrafts).toEqual([drafting]);
  });

  test("leads to the page of the new revision, the products behind it", () => {
    const stage = publishing();
    const shelf = productShelf([FILTER_SAND, NEXT, BARLEY]);
    stage.app = productPublished(libraryRead(stage.app, { shelf, drafts: [], programs: [] }), NEXT);
    expect(stage.app).toMatchObject({ place: { name: "product", product: { revision: 4 } }, productDrafts: [] });
    expect(stage.screen()).toContain("revision 4 · from 2026-12-01");
    expect(stage.presses("escape").app.place.name).toBe("products");
    expect(stage.screen()).toContain("rev 3, 4 coming");
  });
});

describe("the revision in force", () => {
  const app = withInForce(anApp({ revisions: [FILTER_SAND, NEXT, BARLEY], now: "2026-11-30T22:00:00+01:00" }));
  const inForce = (one: App) => one.products.find(({ code }) => code === "TH-0510")?.revision;

  test("changes as the production day does, not at midnight in the middle of a night shift", () => {
    expect(inForce(app)).toBe(3);
    const midnight = ticked(app, "2026-12-01T02:00:00+01:00").app;
    expect(inForce(midnight)).toBe(3);
    const morning = ticked(midnight, "2026-12-01T06:00:00+01:00").app;
    expect(inForce(morning)).toBe(4);
    expect(morning.message).toBe("from today in force: TH-0510 revision 4");
  });

  test("is the one that a test is set out with from then on; one in work keeps its copy", () => {
    const before = new Stage({ ...app, place: { name: "bench", at: 0 } }).types("n");
    expect(before.app.place).toMatchObject({ run: { draft: { product: { revision: 3 } } } });
    before.app = followDay(before.app, "2026-12-01T06:00:00+01:00");
    expect(before.app.place).toMatchObject({ run: { draft: { product: { revision: 3 } } } });
    const after = new Stage({ ...before.app, place: { name: "bench", at: 0 }, behind: [], message: null });
    expect(after.types("n").app.place).toMatchObject({ run: { draft: { product: { revision: 4 } } } });
  });

  test("is the same App while the day stays, so that nothing is drawn anew", () =>
    expect(followDay(app, "2026-12-01T05:59:59+01:00")).toBe(app));
});

describe("the plant's shared folder", () => {
  const station = { ...STATION, sharedFolder: "/mnt/plant" };
  const report: ImportReport = {
    folder: "/mnt/plant",
    dryRun: true,
    files: [
      {
        file: "products/TH-0510.json",
        what: "TH-0510 revision 4",
        is: "new",
        why: null,
        note: "its program X is nowhere",
        sha256: null,
      },
      {
        file: "products/bad.json",
        what: null,
        is: "refused",
        why: "line 1, column 1: expected a value",
        note: null,
        sha256: null,
      },
      { file: "programs/V10.json", what: "program V10", is: "already there", why: null, note: null, sha256: null },
    ],
  };
  const looking = () => {
    const stage = new Stage(anApp({ station })).types("p").presses("f2");
    stage.app = sharedImported(stage.app, report);
    return stage;
  };

  test("is looked through first; nothing is loaded by that", () => {
    const stage = new Stage(anApp({ station })).types("p").presses("f2");
    expect(stage.effects).toEqual([{ do: "importShared", by: "KO", dryRun: true }]);
    expect(stage.screen()).toContain("looking ...");
  });

  test("is told file by file: new, there, refused and why", () => {
    const screen = looking().screen();
    expect(screen).toMatch(/new +TH-0510 revision 4/);
    expect(screen).toContain("! its program X is nowhere");
    expect(screen).toMatch(/refused ✗ +products\/bad\.json/);
    expect(screen).toContain("line 1, column 1: expected a value");
    expect(screen).toContain("Enter loads 1 new, for KO▌");
  });

  test("Enter loads what is new, in the name that stands there", () => {
    const stage = looking().presses("enter");
    expect(stage.effects.at(-1)).toEqual({ do: "importShared", by: "KO", dryRun: false });
    stage.app = sharedImported(stage.app, { ...report, dryRun: false });
    expect(stage.app.message).toBe("loaded: 1, refused: 1");
    expect(stage.screen()).toContain("loaded as told above");
  });

  test("without a folder in station.json the key says so", () =>
    expect(new Stage().types("p").presses("f2").app.message).toMatch(/^no sharedFolder in station\.json/));
});

test("every place of products fits every window", () => {
  const asked = withDraft().types("e");
  const long = {
    ...DRAFT,
    name: "x".repeat(80),
    envelope: FILTER_SAND.stackUm.map((apertureUm) => ({ apertureUm, passingPct: { max: 90 } })),
  };
  const editing = new Stage(draftOpened(anApp(), long, "KO", null));
  for (const size of [
    { columns: 60, rows: 16 },
    { columns: 80, rows: 24 },
    { columns: 160, rows: 50 },
  ])
    for (const stage of [
      asked,
      withDraft(),
      withDraft().types("p"),
      editing,
      pageOf(NEXT, { revisions: [FILTER_SAND, NEXT] }).types("c"),
    ]) {
      const lines = stage.lines(size);
      expect(lines).toHaveLength(size.rows - 1);
      for (const text of lines) expect(columnsOf(text)).toBeLessThanOrEqual(size.columns);
    }
});
