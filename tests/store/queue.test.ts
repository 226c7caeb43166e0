import { expect, test } from "vitest";
import { queue } from "../../src/store/queue.ts";

const laterThan = async (turns: number): Promise<void> => {
  for (let i = 0; i < turns; i += 1) await Promise.resolve();
};

test("steps run one after another, in the order of the asking, however long each takes", async () => {
  const inTurn = queue();
  const ran: string[] = [];
  const step = (name: string, turns: number) =>
    inTurn(async () => {
      ran.push(`${name} begins`);
      await laterThan(turns);
      ran.push(`${name} ends`);
      return name;
    });
  expect(await Promise.all([step("a", 20), step("b", 0), step("c", 5)])).toEqual(["a", "b", "c"]);
  expect(ran).toEqual(["a begins", "a ends", "b begins", "b ends", "c begins", "c ends"]);
});

test("a step that fails answers to its own caller, and the next one runs", async () => {
  const inTurn = queue();
  const failed = inTurn(async () => {
    throw new Error("mine");
  });
  const next = inTurn(async () => "fine");
  await expect(failed).rejects.toThrow("mine");
  expect(await next).toBe("fine");
});
