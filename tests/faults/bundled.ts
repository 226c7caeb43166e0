import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { afterAll, beforeAll } from "vitest";

/** Bundles a program of this folder for a process of its own; answers where it lies while the file's tests run. */
export function bundled(program: string): () => string {
  let folder = "";
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), "sievewright-bundle-"));
    await build({
      entryPoints: [fileURLToPath(new URL(program, import.meta.url))],
      outfile: join(folder, "program.mjs"),
      bundle: true,
      platform: "node",
      format: "esm",
      target: "node20.19",
      banner: { js: "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);" },
    });
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));
  return () => join(folder, "program.mjs");
}
