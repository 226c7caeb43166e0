import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

/** Bundles the tiny program as the whole one is bundled; returns the path of the result. */
export async function bundleTinyProgram(): Promise<string> {
  const outfile = join(mkdtempSync(join(tmpdir(), "sievewright-tiny-")), "tiny.mjs");
  await build({
    entryPoints: [fileURLToPath(new URL("tinyMain.ts", import.meta.url))],
    outfile,
    bundle: true,
    platform: "node",
    format: "esm",
    target: "node20.19",
    minify: true,
    keepNames: true,
    define: { "process.env.NODE_ENV": '"production"' },
    external: ["*/devtools.js"],
    banner: { js: "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);" },
  });
  return outfile;
}
