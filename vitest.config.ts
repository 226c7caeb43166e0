import { defineConfig } from "vitest/config";

const ALL = "tests/**/*.test.{ts,tsx}";
/** What starts programs, replaces modules or breaks disks: each file has a process of its own. */
const APART = [
  "tests/terminal/**/*.test.ts",
  "tests/faults/**/*.test.ts",
  "tests/hostile/**/*.test.ts",
  "tests/store/flush.test.ts",
  "tests/assess.test.ts",
];
const usual = { setupFiles: ["tests/seeded.ts"], testTimeout: 60_000 };

export default defineConfig({
  test: {
    globalSetup: ["tests/buildOnce.ts"],
    reporters: ["default", "./tests/closingLine.ts"],
    maxWorkers: 2,
    projects: [
      // The rest shares its modules: reading them in anew for each file took longer than the tests.
      { test: { ...usual, name: "together", include: [ALL], exclude: APART, isolate: false } },
      { test: { ...usual, name: "apart", include: APART } },
    ],
  },
});
