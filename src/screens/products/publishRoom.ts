import { contradictions } from "../../envelope/contradictions.ts";
import { contentDiff } from "../../envelope/revisions/productDiff.ts";
import { day } from "../../record/fields.ts";
import { SAME_HANDS } from "../../record/productDraft.ts";
import { wrapped } from "../../report/columns.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line, span } from "../line.ts";
import { type App, enter, leave, type Size, type Step, stay, step } from "../place.ts";
import { type Binding, here, type Room } from "../room.ts";
import { initialsOf, initialsRefusal } from "../sign/initials.ts";
import { changeShown } from "./changeShown.ts";
import { revisionsOf } from "./diffRoom.ts";
import { today } from "./inForce.ts";
import { PUBLISH_FIELDS, type PublishPlace } from "./places.ts";
import { draftingOf } from "./productAnswers.ts";

const placeOf = (app: App): PublishPlace => here(app, "publish");

/** On to publishing a product's draft. */
export function publishing(app: App, code: string): Step {
  if (app.readOnly !== null) return stay(app, spoken(app.readOnly));
  if (draftingOf(app, code) === null) return stay(app, say`there is no draft of ${code}: e makes one`);
  const place: PublishPlace = { name: "publish", code, field: "reason", reason: "", effective: "", by: "" };
  return step(enter(app, place));
}

const LABELS = {
  reason: phrase("why this revision"),
  effective: phrase("in force from"),
  by: phrase("let go by"),
} as const;
const HINTS = {
  reason: phrase("in words: what was wrong, who asked for it"),
  effective: phrase("a day like 2026-12-01; Enter takes today"),
  by: phrase("your initials; Enter takes those shown"),
} as const;

const standing = (app: App, field: PublishPlace["field"]): string => {
  const place = placeOf(app);
  if (field === "by") return initialsOf(app, place.by);
  return place[field] === "" && field === "effective" ? today(app) : place[field];
};

function fieldLine(app: App, field: PublishPlace["field"]): Line {
  const current = placeOf(app).field === field;
  const told = standing(app, field);
  return [
    span(`${current ? "▸ " : "  "}${spoken(LABELS[field]).padEnd(18)}`, current ? "strong" : "dim"),
    current ? span(`${told}▌`, "field") : span(told),
  ];
}

const told = (texts: readonly string[], columns: number, role: "plain" | "fail" | "warning"): Line[] =>
  texts.flatMap((text) => wrapped(text, columns - 4, "    ").map((row) => line(`  ${row}`, role)));

function warnings(app: App, columns: number): Line[] {
  const draft = draftingOf(app, placeOf(app).code)?.draft;
  if (draft === undefined) return [];
  const same = initialsOf(app, placeOf(app).by).toLowerCase() === draft.author.toLowerCase();
  const faults = contradictions(draft);
  return [
    ...told(
      faults.filter((one) => one.impossible).map((one) => `✗ ${spoken(one.text)}`),
      columns,
      "fail",
    ),
    ...told(
      faults.filter((one) => !one.impossible).map((one) => `! ${spoken(one.text)}`),
      columns,
      "warning",
    ),
    ...told(
      same ? [say`! ${spoken(SAME_HANDS)} (${draft.author}): the log and the page of the revision say so`] : [],
      columns,
      "warning",
    ),
  ];
}

function changeLines(app: App, columns: number): Line[] {
  const { code } = placeOf(app);
  const [draft, newest] = [draftingOf(app, code)?.draft, revisionsOf(app, code).at(-1)];
  if (draft === undefined || newest === undefined) return [];
  const changes = contentDiff(newest, draft).map(changeShown);
  return told(
    changes.length === 0 ? [say`nothing is changed against revision ${newest.revision}`] : changes,
    columns,
    "plain",
  );
}

function body(app: App, size: Size): readonly Line[] {
  const fields = PUBLISH_FIELDS.map((field) => fieldLine(app, field));
  const hint = line(`    ${spoken(HINTS[placeOf(app).field])}`, "dim");
  const warned = warnings(app, size.columns);
  const changes = changeLines(app, size.columns);
  const room = Math.max(1, size.rows - fields.length - warned.length - 5);
  const left = changes.length - room;
  const more = left > 0 ? [line(say`    ${left} more; Esc and c shows them all`, "dim")] : [];
  return [[], ...fields, hint, [], ...changes.slice(0, room), ...more, ...warned];
}

const at = (app: App, change: Partial<PublishPlace>): Step =>
  step({ ...app, message: null, place: { ...placeOf(app), ...change } });

function effectiveTaken(app: App): Step {
  const effective = standing(app, "effective").trim();
  if (!day.safeParse(effective).success) return stay(app, say`"${effective}" is no day: write it like ${today(app)}`);
  if (effective < today(app)) return stay(app, say`${effective} is past: from today (${today(app)}) or a later day`);
  return at(app, { effective, field: "by" });
}

function released(app: App, moment: string): Step {
  const { code, reason } = placeOf(app);
  const by = initialsOf(app, placeOf(app).by);
  const refusal = initialsRefusal(app, by);
  if (refusal !== null) return stay(app, refusal);
  const release = { by, at: moment, effective: standing(app, "effective").trim(), reason: reason.trim() };
  return step({ ...app, message: say`publishing ...` }, { do: "publishProduct", code, release });
}

const SHORTEST_REASON = 3;

function taken(app: App, moment: string): Step {
  const { field, reason } = placeOf(app);
  if (field === "effective") return effectiveTaken(app);
  if (field === "by") return released(app, moment);
  return reason.trim().length < SHORTEST_REASON
    ? stay(app, say`say in words why there is a new revision`)
    : at(app, { field: "effective" });
}

function back(app: App): Step {
  const before = PUBLISH_FIELDS[PUBLISH_FIELDS.indexOf(placeOf(app).field) - 1];
  return before === undefined ? step(leave(app)) : at(app, { field: before });
}

export const PUBLISH_KEYS: readonly Binding[] = [
  {
    keys: ["enter"],
    word: "go on",
    help: "Take what stands there; after the initials the draft is published.",
    does: taken,
  },
  { keys: ["escape"], word: "back", help: "One field back, then back to the draft; nothing is published.", does: back },
];

const LONGEST = { reason: 400, effective: 10, by: 8 } as const;

const retyped = (app: App, change: (typed: string) => string): Step => {
  const { field } = placeOf(app);
  return at(app, { [field]: change(placeOf(app)[field]).slice(0, LONGEST[field]) });
};

/** Publishing: why there is a new revision, from when it holds, who lets it go. */
export const publishRoom: Room = {
  title: (app) => {
    const { code } = placeOf(app);
    const draft = draftingOf(app, code)?.draft;
    return {
      left: say`publish ${code} revision ${draft?.revision ?? ""}`,
      right: line(draft === undefined ? "" : say`written by ${draft.author}`, "dim"),
    };
  },
  body,
  keys: () => PUBLISH_KEYS,
  field: () => "text",
  typed: (app, text) => retyped(app, (old) => old + text),
  erased: (app) => retyped(app, (old) => old.slice(0, -1)),
  scanned: (app, text, ended, moment) => {
    const typing = retyped(app, (old) => old + text);
    return ended ? taken(typing.app, moment) : typing;
  },
  about: [
    "A draft becomes a revision: why, from which day on, and who lets it go. The log keeps all of it with the SHA-256 of the revision.",
    "Tests set out from that day on are judged by it; tests in work and on record keep their own copy.",
    "Where the same person wrote it and lets it go, that is allowed and said wherever the revision is shown.",
  ],
};
