import { contentDiff, productDiff } from "../../envelope/revisions/productDiff.ts";
import type { Product } from "../../record/product.ts";
import { wrapped } from "../../report/columns.ts";
import { say } from "../../words/say.ts";
import { type Line, line } from "../line.ts";
import { type App, enter, leave, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { changeShown } from "./changeShown.ts";
import type { DiffPlace } from "./places.ts";
import { draftingOf } from "./productAnswers.ts";

export const revisionsOf = (app: App, code: string): readonly Product[] =>
  app.revisions.filter((product) => product.code === code).toSorted((a, b) => a.revision - b.revision);

const diff = (before: Product, after: DiffPlace["after"], isDraft: boolean): DiffPlace => ({
  name: "diff",
  before,
  after,
  isDraft,
  from: 0,
});

/** What a revision changed against the one before it. */
export function diffOfRevision(app: App, product: Product): Step {
  const before = revisionsOf(app, product.code).findLast(({ revision }) => revision < product.revision);
  if (before === undefined) return stay(app, say`no earlier revision of ${product.code} is in the library`);
  return step(enter(app, diff(before, product, false)));
}

/** What a draft changes against the newest revision. */
export function diffOfDraft(app: App, code: string): Step {
  const [drafting, newest] = [draftingOf(app, code), revisionsOf(app, code).at(-1)];
  if (drafting === null || newest === undefined) return stay(app, say`there is no draft of ${code}`);
  return step(enter(app, diff(newest, drafting.draft, true)));
}

function wordsOf({ before, after, isDraft }: DiffPlace): readonly string[] {
  const changes = isDraft ? contentDiff(before, after) : productDiff(before, after);
  return changes.length === 0 ? [say`nothing is changed`] : changes.map(changeShown);
}

const linesOf = (place: DiffPlace, columns: number): readonly Line[] =>
  wordsOf(place).flatMap((words) => wrapped(words, columns - 4, "    ").map((text) => line(`  ${text}`)));

function body(app: App, size: Size): readonly Line[] {
  const place = here(app, "diff");
  const lines = linesOf(place, size.columns);
  const room = size.rows - 2;
  const from = Math.min(place.from, Math.max(0, lines.length - room));
  const more = lines.length - from - room;
  return [[], ...lines.slice(from, from + room), line(more > 0 ? say`  ${more} more below` : "", "dim")];
}

function scroll(app: App, by: number): Step {
  const place = here(app, "diff");
  const from = Math.max(0, Math.min(wordsOf(place).length, place.from + by));
  return step({ ...app, message: null, place: { ...place, from } });
}

/** Against an earlier revision, or a later one again. */
function against(app: App, by: number): Step {
  const place = here(app, "diff");
  const earlier = revisionsOf(app, place.after.code).filter(({ revision }) => revision < place.after.revision);
  const at = earlier.findIndex(({ revision }) => revision === place.before.revision) + by;
  const before = earlier[at];
  if (before === undefined)
    return stay(app, by < 0 ? say`no earlier revision in the library` : say`this is the one before it`);
  return step({ ...app, message: null, place: { ...place, before, from: 0 } });
}

export const DIFF_KEYS: readonly Binding[] = [
  { keys: ["left", "-"], word: "earlier", help: "Against an earlier revision.", does: (app) => against(app, -1) },
  { keys: ["right", "+"], word: "later", help: "Against a later one again.", does: (app) => against(app, 1) },
  { keys: ["up"], word: "scroll", help: "A line up.", does: (app) => scroll(app, -1) },
  { keys: ["down"], word: "scroll", help: "A line down.", does: (app) => scroll(app, 1), quiet: true },
  { keys: ["escape", "enter"], word: "back", help: "Back to where you came from.", does: (app) => step(leave(app)) },
];

/** What changed between two revisions, in the words of `sievewright product diff`. */
export const diffRoom: Room = {
  title: (app) => {
    const { before, after, isDraft } = here(app, "diff");
    const left = isDraft
      ? say`${after.code} revision ${before.revision} → draft of revision ${after.revision}`
      : say`${after.code} revision ${before.revision} → revision ${after.revision}`;
    return { left, right: line(say`what changed`, "dim") };
  },
  body,
  keys: () => DIFF_KEYS,
  field: () => "none",
  typed: (app) => stay(app),
  erased: (app) => stay(app),
  scanned: (app) => stay(app),
  about: [
    "Everything that one revision of a product changed against another, field by field. What was never stated and is now, or the other way round, is told too, with the default that held without it.",
  ],
};
