import { DEMO_STATION } from "../../demo/station.ts";
import { STAGES } from "../../record/draft.ts";
import { phrase } from "../../words/say.ts";
import { CORRECT_KEYS } from "../correct/correctRoom.ts";
import { ADDING_KEYS } from "../envelope/adding.ts";
import { ENVELOPE_KEYS } from "../envelope/envelopeRoom.ts";
import { CODE_KEYS, FORM_KEYS } from "../operators/formRoom.ts";
import type { App, PlaceName } from "../place.ts";
import { INVENT } from "../practice/practiceKeys.ts";
import { ASKED_KEYS, PRODUCT_KEYS } from "../products/productRoom.ts";
import type { Binding } from "../room.ts";
import { ROOMS } from "../rooms.ts";
import { RUN_KEYS } from "../run/keys.ts";
import { writingKeys } from "../run/writing.ts";
import { inspectKeys } from "../sieves/inspectRoom.ts";
import { REFERENCE_KEYS } from "../sieves/referenceRoom.ts";
import { SIEVE_KEYS } from "../sieves/sieveKeys.ts";
import { signKeys } from "../sign/signing.ts";
import { NOBODY_LISTED } from "../signOn/people.ts";
import { SIGN_ON_KEYS } from "../signOn/signOnRoom.ts";
import { CHART_KEYS } from "../trend/chartKeys.ts";
import { CURVES_KEYS } from "../trend/curvesPage.ts";
import { KEEPING_KEYS } from "../trend/keeping.ts";
import { LIMITS_KEYS } from "../trend/limitsPage.ts";
import { LIST_KEYS } from "../trend/listPage.ts";
import { RULES_KEYS } from "../trend/rulesPage.ts";
import { WORDS_KEYS } from "../trend/wordsPage.ts";

/** The keys of a place while something is being done there. */
export interface KeyTable {
  /** Empty where a place has one table only. */
  readonly when: string;
  readonly keys: readonly Binding[];
}

const tables = (byWhen: Readonly<Record<string, readonly Binding[]>>): readonly KeyTable[] =>
  Object.entries(byWhen).map(([when, keys]) => ({ when, keys }));

/** Places whose keys are others by what is being done there. */
const BY_WHAT_IS_DONE: Partial<Readonly<Record<PlaceName, readonly KeyTable[]>>> = {
  run: [
    ...STAGES.map((stage) => ({ when: stage, keys: RUN_KEYS[stage] })),
    { when: phrase("while words are written"), keys: writingKeys },
    { when: phrase("in practice, besides"), keys: [INVENT] },
  ],
  sign: tables({
    "what becomes of the product": signKeys({ field: "disposition" }),
    initials: signKeys({ field: "initials" }),
  }),
  correct: tables(CORRECT_KEYS),
  trend: tables({
    chart: CHART_KEYS,
    curves: CURVES_KEYS,
    "all limits": LIMITS_KEYS,
    "choosing a figure or product": LIST_KEYS,
    rules: RULES_KEYS,
    "in words": WORDS_KEYS,
    "keeping limits": KEEPING_KEYS,
  }),
  product: tables({ "looking at it": PRODUCT_KEYS, "who writes the next revision": ASKED_KEYS }),
  envelope: tables({ bounds: ENVELOPE_KEYS, "adding a limit": ADDING_KEYS }),
  operatorForm: tables({ questions: FORM_KEYS, "the recovery code": CODE_KEYS }),
  reference: tables(REFERENCE_KEYS),
  sieve: tables(SIEVE_KEYS),
  inspect: tables({
    looks: inspectKeys("looks"),
    "whether to measure": inspectKeys("whether"),
    apertures: inspectKeys("warp"),
    signing: inspectKeys("sign"),
  }),
  signOn: [{ when: "", keys: SIGN_ON_KEYS }],
};

/** Screens with nothing in them, for the places whose keys are the same whatever is there. */
const BARE: App = {
  place: { name: "bench", at: 0 },
  behind: [],
  station: DEMO_STATION,
  programVersion: "",
  now: "2026-01-01T00:00:00+00:00",
  readOnly: null,
  problems: [],
  drafts: [],
  recent: [],
  months: [],
  revisions: [],
  products: [],
  productDrafts: [],
  programs: [],
  holds: [],
  earlier: [],
  lineEvents: [],
  balanceCheck: null,
  session: null,
  people: NOBODY_LISTED,
  touchedAt: "2026-01-01T00:00:00+00:00",
  operator: "",
  saved: new Map(),
  rung: new Set(),
  message: null,
};

/** Every key of a place, from the same tables that its footer and its help page are drawn from. */
export const keyTablesOf = (name: PlaceName): readonly KeyTable[] =>
  BY_WHAT_IS_DONE[name] ?? [{ when: "", keys: ROOMS[name].keys(BARE) }];
