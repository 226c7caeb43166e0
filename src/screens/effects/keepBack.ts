import { assessTest } from "../../assess/assessTest.ts";
import { refTo } from "../../assess/correctionOf.ts";
import { currentTest, standingOf, type TestHistory } from "../../record/versions.ts";
import { holdReason, USUAL_OWNER } from "../../shift/holdReason.ts";
import { holdOn, openHolds, withoutWordOfHold } from "../../shift/holds.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import type { App } from "../place.ts";
import type { Desk } from "./desk.ts";

export interface KeptBack {
  readonly holds: App["holds"];
  /** Why a lot that should be kept back is not, in words. */
  readonly trouble: string | null;
}

/** Why a test, as it is to be read today, keeps its lot back; null when it doesn't. */
function reasonOf(history: TestHistory): string | null {
  const test = currentTest(history);
  const { voided, waived } = standingOf(history);
  const assessed = assessTest(test);
  if (voided || !assessed.ok) return null;
  const { verdict } = assessed.value;
  return holdReason({ ...verdict, test: waived ? "valid" : verdict.test, disposition: test.disposition });
}

/**
 * What is out of limits keeps its lot back, whether it was recorded so or became so by a later entry; a lot that is on hold
 * already stays so by the first hold.
 */
export async function keepBack(desk: Desk, history: TestHistory, by: string): Promise<KeptBack> {
  const { holds } = desk.app();
  const reason = reasonOf(history);
  if (reason === null) return { holds, trouble: null };
  const { product, lot, line } = currentTest(history);
  if (lot === "") return { holds, trouble: say`the test has no lot, so nothing is on hold: mark it on the material` };
  const open = openHolds(await desk.store.matters());
  if (holdOn(open, product.code, lot) !== null) return { holds: open, trouble: null };
  const asked = { product: product.code, lot, line, of: refTo(history.entry), owner: USUAL_OWNER, reason };
  const hold = await desk.store.record({ kind: "hold opened", at: desk.now(), by, ...asked });
  if (!hold.ok)
    return {
      holds: open,
      trouble: say`the hold on lot ${lot} is NOT on record: ${spoken(hold.reason)}. Open it: j, k`,
    };
  return { holds: hold.value.kind === "hold opened" ? [...open, hold.value] : open, trouble: null };
}

/**
 * Opens the holds that a power cut kept from the log: a test was recorded, what it means for its lot was not. Asked once
 * somebody may record; a lot of which anything was said since is left as it is.
 */
export async function keepBackWhatWasCut(desk: Desk): Promise<void> {
  const { store } = desk;
  const day = store.atOpening.at(-1)?.day;
  if (day === undefined || store.readOnly !== null || store.station.demo) return;
  if (store.operators.rule === "required" && store.session === null) return;
  for (const entry of withoutWordOfHold(await store.entriesOfDay(day))) {
    const history = await store.history(entry);
    if (!history.ok || currentTest(history.value).lot === "") continue;
    const { holds, trouble } = await keepBack(desk, history.value, store.session?.initials ?? entry.by);
    if (trouble !== null || holds !== desk.app().holds)
      desk.show({ ...desk.app(), holds, ...(trouble === null ? {} : { message: trouble }) });
  }
}
