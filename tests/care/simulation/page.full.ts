import { join } from "node:path";
import { expect, test } from "vitest";
import { carePage } from "./page.ts";

test("docs/care-simulations.md is what npm run docs:care writes", { timeout: 3_600_000 }, async () => {
  const page = join(import.meta.dirname, "../../../docs/care-simulations.md");
  await expect(carePage()).toMatchFileSnapshot(page);
});
