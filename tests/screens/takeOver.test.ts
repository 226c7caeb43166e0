import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { takenOverIn } from "../../src/record/takenOver.ts";
import { currentTest } from "../../src/record/versions.ts";
import type { Run } from "../../src/run/run.ts";
import { anApp, Stage } from "./stage.ts";
import { demoPlant, Walker } from "./walking.ts";

const charged = () => new Stage().types("n").presses("enter", "enter", "enter", "enter").enters("300.20");

test("the key is in the footer only where the product's method allows it, and says elsewhere why it does nothing", () => {
  const stage = charged();
  expect(stage.lines({ columns: 160, rows: 30 }).slice(-3).join()).not.toContain("t take over");
  expect(stage.types("t").screen()).toContain("the method of TH-0510 weighs the sieves empty for each test");
  const products = anApp().products.map((p) => ({ ...p, method: { ...p.method, emptyMasses: "each shift" as const } }));
  const allowed = new Stage(anApp({ products, revisions: products })).types("n");
  allowed.presses("enter", "enter", "enter", "enter").enters("300.20");
  expect(allowed.lines({ columns: 160, rows: 30 }).slice(-3).join()).toContain("t take over");
  expect(allowed.types("t").screen()).toContain("no test of this stack is on record lately: weigh the sieves");
});

test("refused while a mass is doubted leaves the doubt, and the next digits begin a new mass", () => {
  const products = anApp().products.map((p) => ({ ...p, method: { ...p.method, emptyMasses: "each shift" as const } }));
  const stage = new Stage(anApp({ products, revisions: products })).types("n");
  stage.presses("enter", "enter", "enter", "enter").enters("300.20").enters("4000").types("t");
  expect(stage.screen()).toContain("the balance carries 3100 g only");
  expect(stage.screen()).toContain("no test of this stack is on record lately: weigh the sieves");
  stage.enters("412.31");
  expect(stage.screen()).toMatch(/1\.40 mm +412\.31/);
});

function runIn({ app }: Walker): Run {
  if (app.place.name !== "run") throw new Error(`in ${app.place.name}: ${app.message}`);
  return app.place.run;
}

/** What the sieve in hand weighed last; of the pan what is usual. */
function lastMass(walker: Walker): string {
  const { draft, at, setting } = runIn(walker);
  const { serial = "", apertureUm } = draft.weighings[at] ?? { apertureUm: 0 };
  const known = walker.app.care?.lives.get(serial)?.weighings.at(-1)?.emptyG ?? setting.usual.get(apertureUm)?.emptyG;
  return (known ?? 350).toFixed(2);
}

/** From the bench to the empty sieves, whatever is asked on the way. */
async function setsOut(walker: Walker): Promise<void> {
  walker.types("n").enters("TH-PG3");
  for (let i = 0; i < 5 && runIn(walker).setting.emptied === undefined; i++)
    await new Promise((r) => setTimeout(r, 50));
  for (let i = 0; i < 4 && runIn(walker).at < 5; i++) walker.presses("enter");
  walker.enters("200");
  await walker.comes((app) => app.place.name === "run" && app.place.run.setting.emptied !== undefined);
}

function goesOn(walker: Walker): void {
  walker.presses("enter").waits(3000).presses("enter");
  for (let i = 0; i < 30 && runIn(walker).draft.stage === "weigh full"; i++) {
    const { draft, at, doubt } = runIn(walker);
    const emptyG = draft.weighings[at]?.emptyG ?? 0;
    if (doubt) walker.presses("enter");
    else walker.enters((emptyG + 200 / draft.weighings.length).toFixed(2));
  }
}

test("on a real store: the empty masses of one test serve the next one, and the record says so", async () => {
  const folder = await mkdtemp(join(tmpdir(), "sievewright-taken-"));
  const store = await demoPlant(folder);
  const walker = new Walker(store, () => undefined);
  await walker.comes((app) => app.recent !== null && app.care !== undefined);
  await setsOut(walker);
  while (runIn(walker).draft.stage === "weigh empty") {
    walker.enters(lastMass(walker));
    expect(runIn(walker).doubt).toBeNull();
  }
  goesOn(walker);
  walker.presses("enter", "enter", "enter");
  await walker.comes((app) => app.place.name === "bench" && app.message?.startsWith("recorded") === true);
  const [first] = await store.recentRows(1);

  await setsOut(walker);
  walker.types("t");
  expect(runIn(walker).draft.stage).toBe("weigh empty");
  expect(walker.app.message).toBeNull();
  expect(runIn(walker).note).toContain(`empty masses of no. ${first?.number}`);
  walker.enters(lastMass(walker));
  expect(runIn(walker).draft.stage).toBe("shake");
  goesOn(walker);
  walker.presses("enter", "enter", "enter");
  await walker.comes((app) => app.place.name === "bench" && app.message?.startsWith("recorded") === true);
  const [second] = await store.recentRows(1);
  const history = second && (await store.history(second));
  if (!history?.ok) throw new Error("not on record");
  const test = currentTest(history.value);
  expect(takenOverIn(test).map(({ number }) => number)).toEqual(test.weighings.slice(1).map(() => first?.number));
  await store.close();
  await rm(folder, { recursive: true, force: true });
}, 120_000);
