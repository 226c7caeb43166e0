import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.{ts,tsx}"],
    globalSetup: ["tests/buildOnce.ts"],
    reporters: ["default", "./tests/closingLine.ts"],
    testTimeout: 60_000,
    maxWorkers: 2,
  },
});
