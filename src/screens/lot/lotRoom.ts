import { refTo } from "../../assess/correctionOf.ts";
import { actRefusal } from "../../record/permissions.ts";
import type { RetestWay } from "../../record/product.ts";
import { currentTest, type TestHistory } from "../../record/versions.ts";
import { holdOn } from "../../shift/holds.ts";
import { againstRelease } from "../../shift/lot.ts";
import { retestWays } from "../../shift/retest.ts";
import { repeatedTestOf } from "../../store/testsTogether.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { openForm } from "../event/eventRoom.ts";
import { type App, type LotPlace, leave, type Step, stay, step } from "../place.ts";
import { replicatesOn } from "../replicates/replicatesRoom.ts";
import { type Binding, here, type Room } from "../room.ts";
import { retested } from "../run/taking.ts";
import { lotTestOf, standingOfLot, testsOfLot } from "./lotTests.ts";
import { lotBody } from "./lotView.ts";

const placeOf = (app: App): LotPlace => here(app, "lot");

const inHand = (app: App): TestHistory | undefined => placeOf(app).histories[placeOf(app).at];

function moved(app: App, by: number): Step {
  const place = placeOf(app);
  const at = Math.max(0, Math.min(place.histories.length - 1, place.at + by));
  return step({ ...app, message: null, place: { ...place, at } });
}

function hold(app: App): Step {
  const { product, lot, line: on } = placeOf(app);
  const there = holdOn(app.holds, product, lot);
  if (there !== null) return stay(app, say`this lot is on hold already, by no. ${there.number}`);
  const history = inHand(app);
  const of = history === undefined ? null : refTo(history.entry);
  return openForm(app, "hold", { is: "lot", product, lot, line: on, of });
}

function close(app: App): Step {
  const { product, lot } = placeOf(app);
  const there = holdOn(app.holds, product, lot);
  if (there === null) return stay(app, say`no hold is open on this lot`);
  const refusal = app.session === null ? null : actRefusal(app.session.role, "close a hold");
  if (refusal !== null) return stay(app, refusal);
  const against = againstRelease(lot, standingOfLot(placeOf(app)));
  return openForm(app, "close", { is: "hold", hold: there, against });
}

function open(app: App): Step {
  const history = inHand(app);
  return history === undefined ? stay(app) : step(app, { do: "open", row: history.entry });
}

/** Retests of this lot that are set out and not recorded yet. */
const inWork = ({ drafts }: App, { product, lot }: LotPlace): number =>
  drafts.filter((draft) => draft.retest !== undefined && draft.product.code === product && draft.lot === lot).length;

/** Why a test of this lot can't be repeated in this way; null when it can. */
function unrepeatable(app: App, way: RetestWay): string | null {
  const place = placeOf(app);
  const history = inHand(app);
  const product = app.products.find(({ code }) => code === place.product);
  if (product === undefined) return say`no revision of ${place.product} is in force: it can't be set out`;
  const ways = retestWays(testsOfLot(place), product, inWork(app, place));
  if (!ways.ok) return ways.reason;
  const method = say`the method of ${product.code} rev ${product.revision}`;
  if (!ways.value.includes(way))
    return say`${method} names no ${spoken(way)}, only: ${ways.value.map(spoken).join(", ")}`;
  const marked = history && lotTestOf(history, place.lot);
  if (marked?.voided) return say`no. ${marked.number} is void: mark the test to be repeated with Up and Down`;
  return marked?.movedTo === undefined
    ? null
    : say`no. ${marked.number} is of lot ${marked.movedTo}: mark the test to be repeated with Up and Down`;
}

function repeat(app: App, at: string, way: RetestWay): Step {
  const { product: code } = placeOf(app);
  const history = inHand(app);
  const product = app.products.find((one) => one.code === code);
  if (history === undefined || product === undefined) return stay(app);
  const { lot, line, samplingPoint } = currentTest(history);
  return retested(app, at, product, { lot, line, samplingPoint }, { way, of: refTo(history.entry) });
}

const repeating = (key: string, way: RetestWay, help: string): Binding => ({
  keys: [key],
  word: way,
  help,
  does: (app, at) => repeat(app, at, way),
  refusal: (app) => app.readOnly ?? unrepeatable(app, way),
});

function scatter(app: App): Step {
  const { product, lot, histories } = placeOf(app);
  return replicatesOn(app, product, lot, histories.map(repeatedTestOf));
}

export const LOT_KEYS: readonly Binding[] = [
  { keys: ["enter"], word: "open", help: "Open the test that the mark points at.", does: open },
  repeating(
    "r",
    "resample",
    phrase("Test a sample taken anew, as a retest of the marked test; the method says whether."),
  ),
  repeating(
    "s",
    "second portion",
    phrase("Test a second portion of the sample of the marked test; the method says whether."),
  ),
  { keys: ["k"], word: "keep back", help: "Open a hold on this lot, with owner and reason.", does: hold },
  { keys: ["c"], word: "close hold", help: "Close the hold: what becomes of the lot, and why.", does: close },
  {
    keys: ["v"],
    word: "scatter",
    help: "How the tests of the lot scatter: mean, repeatability, outliers, against the stated uncertainty.",
    does: scatter,
  },
  { keys: ["up"], word: "test", help: "The test above.", does: (app) => moved(app, -1) },
  { keys: ["down"], word: "test", help: "The test below.", does: (app) => moved(app, 1), quiet: true },
  { keys: ["escape"], word: "back", help: "Back to where you came from.", does: (app) => step(leave(app)) },
];

/** A lot with all its tests in view together: nobody tests until it passes. */
export const lotRoom: Room = {
  title: (app) => {
    const { product, lot, line: on } = placeOf(app);
    return { left: say`${product} · lot ${lot} · ${on}`, right: [] };
  },
  body: (app, size) => lotBody(app, placeOf(app), size),
  keys: () => LOT_KEYS,
  field: () => "none",
  typed: (app) => stay(app),
  erased: (app) => stay(app),
  scanned: (app) => stay(app),
  about: [
    "Every test of one lot, the void ones too, and what they say together. A fail stands whatever later tests say, unless",
    "the product's method decides by the average. Retests are set out here, so that the record says which test they repeat",
    "and whether from the same sample or a new one. A hold keeps the lot back until somebody of quality closes it, with a",
    "reason; both are entries of the log.",
  ],
};
