import { fieldInHand } from "../../src/run/run.ts";
import { benchItems } from "../../src/screens/bench/items.ts";
import type { App, PlaceName } from "../../src/screens/place.ts";
import { SIGN_ON } from "../../src/screens/signOn/people.ts";
import { toured, withTour } from "../../src/screens/tour/tour.ts";
import { SERIALS } from "../store/careWorld.ts";
import type { Walker } from "./walking.ts";

const stageOf = ({ place }: App) => (place.name === "run" ? place.run.draft.stage : null);
const doubted = ({ place }: App) => (place.name === "run" && place.run.doubt ? (["enter"] as const) : []);

/**
 * How one comes to stand in each place, from the bench; `looks` in every state that draws differently. A place that is new
 * needs a line here.
 */
export const VISITS: Readonly<Record<PlaceName, (walker: Walker) => Promise<unknown>>> = {
  bench: async (w) => {
    w.looks("with a test in work").looks("on the tour", toured(withTour(w.app)));
    w.types("x").presses("escape").looks("with a practice test").types("x").presses("f9");
    toFirstTest(w).looks("on a recorded test");
    w.looks("with a message", {
      message: "a message of some length that has to be wrapped where the window is narrow, to its last word",
    });
    w.looks("read only", {
      readOnly: "another Sievewright (process 4711, since 2026-11-23 22:04) has this station open",
    });
  },
  run: async (w) => {
    w.types("x").looks("practice");
    for (let keys = 0; keys < 8 && stageOf(w.app) === "set out"; keys++) w.presses("f6", "enter");
    w.looks("practice, weigh empty");
    for (let keys = 0; keys < 60 && stageOf(w.app) !== "result"; keys++) w.types("i").presses(...doubted(w.app));
    w.looks("practice, result")
      .looks("practice on the tour", toured(withTour(w.app)))
      .presses("enter")
      .looks("practice, sign");
    w.presses("enter", "enter");
    w.types("n").looks("set out").enters("TH-MAS").presses("enter", "enter", "enter").looks("set of sieves");
    if (w.app.place.name === "run" && fieldInHand(w.app.place.run) === "set") w.presses("enter");
    w.looks("charge").enters("300.2");
    w.looks("weigh empty").types("412.3").looks("typed").types("x").looks("big").types("x").presses("enter");
    const accepts = () => w.app.place.name === "run" && w.app.place.run.doubt !== null && w.presses("enter");
    accepts();
    for (let row = 1; w.app.place.name === "run" && w.app.place.run.draft.stage === "weigh empty" && row < 20; row++) {
      w.enters(`${400 - row * 3}.5`);
      accepts();
    }
    w.looks("shake")
      .types("s")
      .looks("why cut short")
      .types("the bell did not ring")
      .presses("enter")
      .looks("weigh full");
    w.enters("100").looks("refused").enters("2000").looks("doubted").types("x").looks("doubted, big").types("x");
  },
  sign: async (w) => {
    await toResult(w);
    w.looks("result").types("v").looks("another view").presses("enter");
    (await w.comes("sign")).looks("disposition");
  },
  values: async (w) => {
    await toResult(w);
    (await w.types("w").comes("values")).looks();
  },
  log: async (w) => {
    (await w.types("l").comes("log")).looks();
    await w.comes((app) => app.place.name === "log" && app.place.rows.length > 20);
    w.looks("many").types("TH-MAS").looks("filtered").types(" no such").looks("nothing found");
  },
  record: async (w) => {
    await toRecord(w);
    w.looks();
    for (let view = 1; view < 8; view++) w.types("v").looks(`view ${view}`);
  },
  correct: async (w) => {
    await toRecord(w);
    (await w.types("e").comes("correct")).looks("choose").presses("enter").types("1").looks("typing");
  },
  reason: async (w) => {
    await toRecord(w);
    (await w.types("y").comes("reason")).looks("why").enters("the sample was of another lot").looks("who");
  },
  balance: async (w) => {
    (await w.types("b").comes("balance")).looks().enters("500.01").looks("one read").enters("50.00").looks("who");
  },
  deck: async (w) => {
    (await w.types("l").comes("log")).types("TH-0510");
    await w.comes((app) => app.place.name === "log" && app.place.rows.length > 3);
    w.presses("f2", "down", "f3", "down", "f4", "f5");
    (await w.comes("deck")).looks().types("v").looks("other view");
  },
  shaker: async (w) => (await w.types("m").comes("shaker")).looks().types("r").looks("restated"),
  products: async (w) => (await w.types("p").comes("products")).looks().types("zzz").looks("nothing found"),
  product: async (w) => {
    await toProduct(w);
    w.looks();
  },
  envelope: async (w) => {
    await toEnvelope(w);
    w.looks().presses("down", "down").looks("another row");
  },
  diff: async (w) => {
    await toProduct(w, "TH-MAS");
    (await w.types("c").comes("diff")).looks();
  },
  publish: async (w) => {
    await toEnvelope(w);
    (await w.types("p").comes("publish")).looks();
  },
  import: async (w) => {
    (await w.types("p").comes("products")).presses("f2");
    (await w.comes("import")).looks();
  },
  signOn: async (w) => {
    const people = { ...w.app.people, rule: "required" as const };
    w.looks("initials", { place: SIGN_ON, people });
    w.looks("PIN", { place: { ...SIGN_ON, field: "pin", initials: "KO", pin: "190734" }, people });
  },
  operators: async (w) => (await w.types("a").comes("operators")).looks(),
  operatorForm: async (w) => {
    (await w.types("a").comes("operators")).types("n");
    (await w.comes("operatorForm")).looks().enters("SB").looks("second question");
  },
  event: async (w) => {
    for (const form of ["g", "n"]) {
      if (form === "g") w.types("g");
      else w.presses("escape", "escape", "escape", "ctrl+n");
      (await w.comes("event")).looks(form);
    }
  },
  handover: async (w) => (await w.types("h").comes("handover")).looks(),
  lot: async (w) => {
    toFirstTest(w).types("j");
    (await w.comes("lot")).looks();
  },
  trend: async (w) => {
    w.types("t");
    await w.comes((app) => app.place.name === "trend" && app.place.read !== null);
    w.looks("chart");
    for (const page of ["f", "r", "p", "k", "v"]) w.types(page).looks(page).presses("escape");
  },
  plan: async (w) => {
    await toProduct(w);
    (await w.types("g").comes("plan")).looks();
  },
  replicates: async (w) => {
    await VISITS.lot(w);
    (await w.types("v").comes("replicates")).looks();
  },
  sieves: async (w) => {
    (await w.types("s").comes("sieves"))
      .looks()
      .presses("down", "down")
      .looks("another row")
      .types("nowhere")
      .looks("none");
    w.presses("escape", "f2").looks("balances and weights").presses("down").looks("another of these");
  },
  sieve: async (w) => {
    await toSieve(w);
    for (let page = 0; page < 4; page++) w.looks(`page ${page}`).types("v");
    await w.comes((app) => app.place.name === "sieve" && app.place.told !== null);
    w.types("v").looks("life read").presses("left", "left");
    await w.comes((app) => app.place.name === "sieve" && app.place.effective !== "working");
    w.looks("effective read");
  },
  careForm: async (w) => {
    await toSieve(w);
    (await w.types("c").comes("careForm")).looks("which").presses("enter").looks("how").enters("brush").looks("empty");
    w.enters("400")
      .presses("enter", "enter")
      .looks("who or a doubt")
      .presses("escape", "escape", "escape", "escape", "escape");
    (await w.presses("escape").comes("sieves")).presses("escape", "f3");
    (await w.comes("careForm")).looks("what is registered").enters("sieve").enters("S-0125-9").enters("125");
    w.looks("cloth")
      .presses("enter", "enter", "enter", "enter", "enter", "enter", "enter", "enter")
      .looks("certificate");
  },
  inspect: async (w) => {
    await toSieve(w);
    (await w.types("i").comes("inspect")).looks().types("gggff").looks("by eye alone or not").types("i").looks("file");
    w.presses("escape").types("m").looks("cloth").enters("16").enters("711").enters("890").looks("warp");
    w.presses("enter").enters("705").looks("weft").presses("enter").looks("instrument").presses("enter").looks("note");
    w.presses("enter").looks("who");
  },
  reference: async (w) => {
    (await w.types("s").comes("sieves")).presses("f4");
    await w.comes((app) => app.place.name === "reference" && app.place.rows !== null);
    w.looks("no material");
    const { place } = w.app;
    if (place.name !== "reference") throw new Error("not there");
    const points = [1400, 710, 355].map((apertureUm, i) => ({ apertureUm, passingPct: 90 - 40 * i, expandedPct: 1 }));
    const certificate = { day: "2026-01-01", laboratory: "Tessel Hollow (invented)" };
    const material = {
      schema: "sievewright.referenceMaterial/1" as const,
      code: "RM-1",
      name: "sand",
      certificate,
      points,
    };
    w.looks("test", { place: { ...place, step: "test", material } });
    const found = [1400, 710, 355].map((apertureUm, i) => ({
      apertureUm,
      serial: `S-${apertureUm}-1`,
      passingPct: 88 - 39 * i,
    }));
    const check = { did: "reference check" as const, material, found };
    w.looks("result", { place: { ...place, step: "result", material, check } });
  },
  help: async (w) => w.types("?").looks().presses("down").looks("scrolled"),
};

/** The test in work that the plant came with, weighed to its end. */
async function toResult(w: Walker): Promise<void> {
  w.presses(...Array.from({ length: 6 }, () => "up" as const), "enter");
  await w.comes("run");
  for (let keys = 0; keys < 80 && w.app.place.name === "run" && w.app.place.run.draft.stage === "weigh full"; keys++) {
    const { draft, at, doubt } = w.app.place.run;
    if (doubt) w.presses("enter");
    else w.enters(String(Math.round(((draft.weighings[at]?.emptyG ?? 0) + 5 + at) * 100) / 100));
  }
  await w.comes((app) => app.place.name === "run" && app.place.run.draft.stage === "result");
}

async function toSieve(w: Walker): Promise<void> {
  (await w.types("s").comes("sieves")).types(SERIALS[0] ?? "");
  w.presses("enter");
  await w.comes("sieve");
}

/** The mark of the bench on the first recorded test. */
function toFirstTest(w: Walker): Walker {
  const items = benchItems(w.app);
  const wanted = items.findIndex(({ kind }) => kind === "test");
  while (w.app.place.name === "bench" && w.app.place.at < wanted) w.presses("down");
  return w;
}

async function toRecord(w: Walker): Promise<void> {
  toFirstTest(w).presses("enter");
  await w.comes("record");
}

async function toProduct(w: Walker, code = "TH-0510"): Promise<void> {
  (await w.types("p").comes("products")).types(code).presses("enter");
  await w.comes("product");
}

async function toEnvelope(w: Walker): Promise<void> {
  await toProduct(w);
  w.types("e");
  await w.comes(
    (app) => app.place.name === "envelope" || (app.place.name === "product" && app.place.drafting !== null),
  );
  if (w.app.place.name === "product") w.presses("enter");
  await w.comes("envelope");
}
