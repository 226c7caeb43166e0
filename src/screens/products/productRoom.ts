import { say } from "../../words/say.ts";
import { line } from "../line.ts";
import { type App, leave, type Step, stay, step } from "../place.ts";
import { planOn } from "../plan/reachPlan.ts";
import { type Binding, here, type Room } from "../room.ts";
import { initialsOf, initialsRefusal } from "../sign/initials.ts";
import { trendOf } from "../trend/trendPlace.ts";
import { diffOfRevision, revisionsOf } from "./diffRoom.ts";
import { standingWords } from "./inForce.ts";
import type { ProductPlace } from "./places.ts";
import { draftingOf } from "./productAnswers.ts";
import { productBody } from "./productView.ts";
import { publishing } from "./publishRoom.ts";

const placeOf = (app: App): ProductPlace => here(app, "product");
const placed = (app: App, change: Partial<ProductPlace>): Step =>
  step({ ...app, message: null, place: { ...placeOf(app), ...change } });

const noDraft = (app: App): string | null => {
  const { code } = placeOf(app).product;
  return app.readOnly ?? (draftingOf(app, code) === null ? say`there is no draft of ${code}: e makes one` : null);
};

/** To another revision of the same product. */
function turn(app: App, by: number): Step {
  const { product } = placeOf(app);
  const all = revisionsOf(app, product.code);
  const next = all[all.findIndex(({ revision }) => revision === product.revision) + by];
  return next === undefined
    ? stay(app, by < 0 ? say`no earlier revision here` : say`no later revision here`)
    : placed(app, { product: next });
}

/** Enter on the initials: there is a draft from here on. */
function begin(app: App): Step {
  const by = initialsOf(app, placeOf(app).drafting ?? "");
  const refusal = initialsRefusal(app, by);
  if (refusal !== null) return stay(app, refusal);
  return step({ ...app, message: say`drafting ...` }, { do: "draftProduct", code: placeOf(app).product.code, by });
}

export const PRODUCT_KEYS: readonly Binding[] = [
  { keys: ["escape", "enter"], word: "back", help: "Back to the products.", does: (app) => step(leave(app)) },
  { keys: ["left", "-"], word: "revision", help: "To the revision before this one.", does: (app) => turn(app, -1) },
  {
    keys: ["right", "+"],
    word: "revision",
    help: "To the revision after this one.",
    does: (app) => turn(app, 1),
    quiet: true,
  },
  {
    keys: ["t"],
    word: "trends",
    help: "How this product has been running on the line where it was tested last.",
    does: (app) => trendOf(app, placeOf(app).product.code, null),
  },
  {
    keys: ["c"],
    word: "changes",
    help: "What this revision changed against the one before, in words.",
    does: (app) => diffOfRevision(app, placeOf(app).product),
  },
  {
    keys: ["e"],
    word: "edit",
    help: "Write the next revision: its envelope, from the newest one or from the draft there is.",
    does: (app) => (app.session === null ? placed(app, { drafting: "" }) : begin(app)),
    refusal: (app) => app.readOnly,
  },
  {
    keys: ["g"],
    word: "how much",
    help: "Which charge, in how many portions, it takes to judge each limit.",
    does: (app) => planOn(app, placeOf(app).product),
  },
  {
    keys: ["p"],
    word: "publish",
    help: "Make a revision of the draft: why, from when, who lets it go.",
    does: (app) => publishing(app, placeOf(app).product.code),
    refusal: noDraft,
  },
  {
    keys: ["d"],
    word: "discard",
    help: "Discard the draft; its file is kept beside.",
    does: (app) => step(app, { do: "discardProductDraft", code: placeOf(app).product.code }),
    refusal: noDraft,
    quiet: true,
  },
];

/** While initials are typed only Enter and Esc act. */
export const ASKED_KEYS: readonly Binding[] = [
  { keys: ["enter"], word: "write", help: "Take the initials shown, and on to the envelope.", does: begin },
  { keys: ["escape"], word: "leave it", help: "Back without a draft.", does: (app) => placed(app, { drafting: null }) },
];

const isAsked = (app: App): boolean => typeof placeOf(app).drafting === "string";

const retyped = (app: App, change: (typed: string) => string): Step =>
  isAsked(app) ? placed(app, { drafting: change(placeOf(app).drafting ?? "").slice(0, 8) }) : stay(app);

/** One product revision: its limits, its method, its envelope as a drawing; from here the next one is written. */
export const productRoom: Room = {
  title: (app) => {
    const { product } = placeOf(app);
    const right = line(say`revision ${product.revision} · ${standingWords(app, product)}`);
    return { left: `${product.code} ${product.name}`, right };
  },
  body: productBody,
  keys: (app) => (isAsked(app) ? ASKED_KEYS : PRODUCT_KEYS),
  field: (app) => (isAsked(app) ? "text" : "none"),
  typed: (app, text) => retyped(app, (old) => old + text),
  erased: (app) => retyped(app, (old) => old.slice(0, -1)),
  scanned: (app, text, ended) => {
    const typing = retyped(app, (old) => old + text);
    return ended && isAsked(app) ? begin(typing.app) : typing;
  },
  about: [
    "One revision of a product: who wrote it, who let it go and why, the limits of its envelope, how it is tested, and the envelope drawn as two curves.",
    "Both limits are inclusive; a value on the limit is within. Nothing is rounded first unless the product says so.",
    "A revision never changes: e writes the next one as a draft, p publishes it.",
  ],
};
