import type { Term } from "./term.ts";

/** Words of the plant, the record and the care of what is weighed with. */
export const KEEPING_TERMS = {
  station: { name: "station", meaning: "One place with a balance and this program; its log is its own." },
  line: { name: "line", meaning: "The part of the plant that makes the product: a dryer, a screen deck, a mill." },
  lot: {
    name: "lot",
    meaning: "The quantity that is released or held together; tests and holds are told by it.",
    also: ["batch"],
  },
  samplingPoint: { name: "sampling point", meaning: "Where on the line the sample is taken." },
  samplingPlan: {
    name: "sampling plan",
    meaning: "Which product is tested how often on which line; late and due on the bench come from it.",
    also: ["due", "late"],
  },
  shift: { name: "shift", meaning: "The hours that one crew works; the handover closes one and opens the next." },
  handover: {
    name: "handover",
    meaning: "What the next shift must know, as one page of the log, signed by who goes and who comes.",
  },
  disposition: {
    name: "disposition",
    meaning: "What was done with the product: release, adjust, hold, resample, rework, reject.",
    also: ["release"],
  },
  hold: {
    name: "hold",
    meaning: "A lot that is kept back until quality closes the hold with a reason.",
    also: ["keep back"],
  },
  retest: {
    name: "retest",
    meaning: "A test that says which one it repeats: from the same sample divided again, or from a new one.",
    also: ["second portion", "resample"],
  },
  product: { name: "product", meaning: "What is sold under one code, with its stack, its method and its envelope." },
  revision: {
    name: "revision",
    meaning: "One published state of a product; it never changes, and tests keep a copy of theirs.",
  },
  draft: {
    name: "draft",
    meaning: "What is not yet on record or not yet published; nothing is judged by a draft of a product.",
  },
  library: {
    name: "library",
    meaning: "The products and programs that this station has loaded.",
    also: ["shared folder"],
  },
  log: {
    name: "log",
    meaning: "All that was recorded, in the order in which it was; it only grows.",
    also: ["record"],
  },
  correction: {
    name: "correction",
    meaning: "An entry beside a recorded test that says how it is to be read, by whom and why; the original stays.",
    also: ["version"],
  },
  voided: {
    name: "void",
    meaning: "A recorded test that counts no longer, for a reason on record; it can be reinstated.",
    also: ["voided", "reinstated"],
  },
  waiver: { name: "waiver", meaning: "Quality lets an invalid test stand, for a reason on record.", also: ["waived"] },
  chain: {
    name: "record chain",
    meaning: "Each entry holds the SHA-256 of the one before, so that a changed or missing one shows.",
    also: ["seal", "head"],
  },
  role: {
    name: "role",
    meaning: "Operator, quality or administrator: what somebody may do here, refused by the store itself.",
  },
  signOn: {
    name: "sign on",
    meaning: "Initials and a PIN, where the station asks for them; entries bear the name of whoever did.",
    also: ["PIN"],
  },
  balanceCheck: {
    name: "balance check",
    meaning: "The balance read with its check weights before use; it fails beyond a weight's tolerance.",
  },
  checkWeight: {
    name: "check weight",
    meaning: "A weight of known mass and class, kept for the balance check.",
    also: ["tolerance"],
  },
  inspection: {
    name: "inspection",
    meaning: "A sieve looked over and, where wanted, its apertures measured against its series.",
  },
  warpWeft: {
    name: "warp and weft",
    meaning: "The two directions of the woven cloth; each is measured and judged by itself.",
    also: ["warp", "weft"],
  },
  cleanLevel: {
    name: "clean level",
    meaning: "What a sieve weighs empty after cleaning; a change from it tells of grains caught or wire lost.",
    also: ["empty mass drift"],
  },
  quarantine: {
    name: "quarantine",
    meaning: "A sieve set aside until it was mended, inspected or retired.",
    also: ["out of service"],
  },
  effectiveAperture: {
    name: "effective aperture",
    meaning: "The opening that a sieve behaves like, by its tests or a reference material; it advises a check.",
  },
  referenceMaterial: {
    name: "reference material",
    meaning: "A material whose passing % is certified, sieved like any test to check the sieves.",
  },
  enNumber: {
    name: "En number",
    meaning:
      "The difference from the certificate over the expanded uncertainty of both; within 1 either way is in order.",
  },
  controlLimits: {
    name: "control limits",
    meaning:
      "The range that the process keeps by itself, three standard deviations about its centre line; no limit of the product.",
    also: ["centre line"],
  },
  signal: {
    name: "signal",
    meaning: "A pattern in a control chart that chance seldom makes: look for a cause, the product may still be good.",
  },
  drift: {
    name: "drift",
    meaning: "A steady move of a figure; where it can't be chance, the tests until a limit is reached are told.",
  },
  capability: {
    name: "capability",
    meaning: "Cpk and Ppk: how many times three standard deviations fit between the mean and the nearer limit.",
    also: ["Cpk", "Ppk", "Cp", "Pp"],
  },
  memoryChart: {
    name: "EWMA and CUSUM",
    meaning: "Charts that remember earlier tests and so show a small lasting shift sooner.",
    also: ["EWMA", "CUSUM"],
  },
} as const satisfies Record<string, Term>;
