import { mayBeTakenOver } from "../../record/takenOver.ts";
import type { TestRecord } from "../../record/test.ts";
import { DISPOSITIONS } from "../../record/test.ts";
import { wrapped } from "../../report/columns.ts";
import { differingRows } from "../../report/versionTable.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { cells, type Line, line, span, whereLine, windowAround } from "../line.ts";
import type { App, CorrectPlace, Size } from "../place.ts";
import { versionTableLines } from "../record/versionsView.ts";
import { listed } from "../sentences.ts";
import { initialsOf } from "../sign/initials.ts";
import { correctedTest, inHand, placeOf, testOf } from "./correcting.ts";
import { type Correctable, contentAt, contentText, correctables, isMass, isOf, labelOf } from "./fields.ts";

const COLUMNS = { mark: 2, label: 26, now: 20 } as const;

function fieldLine(place: CorrectPlace, of: Correctable, chosen: boolean): Line {
  const test = testOf(place);
  const change = place.changes.find(isOf(of));
  const typing = chosen && place.typed !== null ? span(`${place.typed}▌`, "field") : null;
  const to = change === undefined ? span("") : span(`* ${contentText(test, of, change.to)}`, "strong");
  const now = contentText(test, of, contentAt(test, of));
  const row = [
    ...cells([
      { text: chosen ? "▸" : "", columns: COLUMNS.mark, role: "strong" },
      { text: labelOf(of), columns: COLUMNS.label, role: chosen ? "strong" : "plain" },
      { text: `${now} `, columns: COLUMNS.now },
    ]),
    typing ?? to,
  ];
  return listed(row, chosen, labelOf(of), [now, (typing ?? to).text]);
}

const heading = (): Line =>
  cells([
    { text: "", columns: COLUMNS.mark },
    { text: say`what to correct`, columns: COLUMNS.label, role: "dim" },
    { text: say`as it reads now`, columns: COLUMNS.now, role: "dim" },
    { text: say`* as it should read`, columns: 26, role: "dim" },
  ]);

const choices = (): string => DISPOSITIONS.map((disposition, i) => `${i + 1} ${spoken(disposition)}`).join("  ");

function hintLines(place: CorrectPlace, columns: number): Line[] {
  if (place.doubt)
    return wrapped(`! ${spoken(place.doubt.text)}`, columns - 3, "  ").map((row) => line(`  ${row}`, "warning"));
  return inHand(place).field === "disposition" ? [line(`  ${choices()}`, "dim")] : [];
}

function chooseBody(place: CorrectPlace, size: Size): Line[] {
  const fields = correctables(testOf(place));
  const hints = hintLines(place, size.columns);
  const { from, shown } = windowAround(fields, place.at, Math.max(1, size.rows - 2 - hints.length));
  return [
    heading(),
    ...shown.map((of, i) => fieldLine(place, of, from + i === place.at)),
    whereLine(from, shown, fields),
    ...hints,
  ];
}

/** What is corrected, and every figure and verdict that follows, as it reads now and as it will. */
export function comparison(before: TestRecord, after: TestRecord, size: Size, from: number): Line[] {
  const rows = differingRows([before, after]);
  return versionTableLines(rows, [say`as it reads now`, say`corrected`], { line: from, version: 0 }, size);
}

function reasonLines(place: CorrectPlace, columns: number): Line[] {
  const typed = place.step === "reason" ? `${place.typed ?? ""}▌` : place.reason;
  return wrapped(say`why: ${typed}`, columns - 4, "  ").map((row) =>
    line(`  ${row}`, place.step === "reason" ? "field" : "plain"),
  );
}

function signLine(app: App, place: CorrectPlace): Line {
  const by = initialsOf(app, place.typed ?? "");
  const known = app.session ?? app.station.operators.find(({ initials }) => initials === by);
  return [span(say`  signed by  `, "strong"), span(`${by}▌`, "field"), span(known ? `  ${known.name}` : "", "dim")];
}

/** A release that no longer follows from the test is no slip of the pen: somebody must decide anew. */
function stillReleased({ signed, disposition }: TestRecord): Line[] {
  if (disposition !== "release") return [];
  if (signed.test === "invalid")
    return [
      line(say`  ! the test is invalid, yet the product stays released: correct the disposition, too`, "warning"),
    ];
  if (signed.product === "fail")
    return [line(say`  ! the product fails, yet the product stays released: correct the disposition, too`, "warning")];
  return [];
}

/** What was taken over is a copy: it stays as it was read. */
function copiesLeft(place: CorrectPlace): Line[] {
  const isOfEmpty = place.changes.some(({ field }) => field === "emptyG");
  return isOfEmpty && mayBeTakenOver(testOf(place))
    ? [line(say`  ! tests after it that took this empty mass over keep it: correct them, too`, "warning")]
    : [];
}

function followsBody(app: App, place: CorrectPlace, size: Size): Line[] {
  const after = correctedTest(app);
  const lower = [
    ...(after.ok ? stillReleased(after.value) : []),
    ...copiesLeft(place),
    ...reasonLines(place, size.columns),
    ...(place.step === "initials" ? [signLine(app, place)] : []),
    line(say`  the original stays on record; this correction is added beside it`, "dim"),
  ];
  const room = { columns: size.columns, rows: Math.max(2, size.rows - lower.length - 1) };
  const upper = after.ok
    ? comparison(testOf(place), after.value, room, place.from)
    : [line(`  ! ${spoken(after.reason)}`, "warning")];
  return [...upper, [], ...lower];
}

export function correctBody(app: App, size: Size): readonly Line[] {
  const place = placeOf(app);
  const body = place.step === "choose" ? chooseBody(place, size) : followsBody(app, place, size);
  return body;
}

/** Whether what is typed is a number, words, or nothing. */
export function fieldKind(place: CorrectPlace): "none" | "number" | "text" {
  if (place.step === "reason" || place.step === "initials") return "text";
  if (place.step === "confirm") return "none";
  if (isMass(inHand(place))) return "number";
  return place.typed === null ? "none" : "text";
}
