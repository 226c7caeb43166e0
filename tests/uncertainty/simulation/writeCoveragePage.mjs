// Writes docs/uncertainty-coverage.md. Takes some minutes.
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";

const here = import.meta.dirname;
const folder = await mkdtemp(join(tmpdir(), "sievewright-coverage-"));
try {
  const outfile = join(folder, "coveragePage.mjs");
  await build({
    entryPoints: [join(here, "coveragePage.ts")],
    outfile,
    bundle: true,
    platform: "node",
    format: "esm",
    logLevel: "error",
  });
  const { coveragePage } = await import(pathToFileURL(outfile).href);
  await writeFile(join(here, "../../../docs/uncertainty-coverage.md"), coveragePage());
} finally {
  await rm(folder, { recursive: true, force: true });
}
