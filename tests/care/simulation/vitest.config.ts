import { join } from "node:path";
import { defineConfig } from "vitest/config";

/** The simulations in full size: some minutes, therefore not among the tests of every run. */
export default defineConfig({
  root: join(import.meta.dirname, "../../.."),
  test: { include: ["tests/care/simulation/*.full.ts"], maxWorkers: 1 },
});
