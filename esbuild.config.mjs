// Bundles the whole program: an Ink program starts in about half the time when bundled. The bundle is one script whose code
// is compiled ahead, by running it once, which halves the rest; `sievewright.mjs` starts it.
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { libraryEdits } from "./tools/libraryEdits.mjs";

const beganMs = Date.now();
const at = (path) => fileURLToPath(new URL(path, import.meta.url));
const { version } = JSON.parse(readFileSync(at("package.json"), "utf8"));

const { outputFiles } = await build({
  absWorkingDir: at("."),
  plugins: [libraryEdits],
  entryPoints: ["src/main.tsx"],
  write: false,
  bundle: true,
  platform: "node",
  format: "cjs",
  target: "node20.19",
  // Names stay as they are, for whoever reads a fault report; to keep them beside shorter ones took a twelfth of the start.
  minifyWhitespace: true,
  minifySyntax: true,
  legalComments: "none",
  define: {
    "process.env.NODE_ENV": '"production"',
    SIEVEWRIGHT_VERSION: JSON.stringify(version),
    "Intl.Segmenter": "LateSegmenter",
  },
  inject: ["tools/lateSegmenter.mjs"],
  supported: { "dynamic-import": false },
  // A function of `require`, as the launcher calls it.
  banner: { js: "(require)=>{" },
  footer: { js: "}" },
});

/** esbuild leaves regular expressions as they are; escaped as all else is, the program has one byte a character. */
const oneByte = (text) =>
  text.replace(/[^\x00-\x7f]/g, (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, "0")}`);

const program = oneByte(outputFiles[0].text);
const name = `program-${createHash("sha256").update(program).digest("hex").slice(0, 12)}`;

/** A whole file under its name or none: whoever starts the program meanwhile finds one that fits. */
function put(file, content, mode = 0o644) {
  writeFileSync(`${file}.new`, content, { mode });
  renameSync(`${file}.new`, file);
}

mkdirSync(at("dist"), { recursive: true });
put(at(`dist/${name}.js`), program);
put(at("dist/sievewright.mjs"), readFileSync(at("tools/launch.mjs"), "utf8").replaceAll("PROGRAM", name), 0o755);

const folder = mkdtempSync(join(tmpdir(), "sievewright-build-"));
try {
  const env = { ...process.env, NO_COLOR: "", FORCE_COLOR: "", TERM: "xterm-256color", LANG: "C.UTF-8" };
  const run = (...args) => execFileSync(process.execPath, args, { env, stdio: ["ignore", "ignore", "inherit"] });
  run(at("dist/sievewright.mjs"), "demo", "--data", join(folder, "station"), "--fill", "60");
  run(at("tools/compileAhead.mjs"), at(`dist/${name}.js`), join(folder, "compiled"), join(folder, "station"));
  put(at(`dist/${name}.compiled`), readFileSync(join(folder, "compiled")));
} catch (fault) {
  // The program is whole without it, and an installation must not fail for it; a test asks for it.
  console.error(`built, but without code compiled ahead, so it starts more slowly: ${fault}`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}

/** What neither the way in starts nor another build that runs meanwhile has put there. */
const launcher = readFileSync(at("dist/sievewright.mjs"), "utf8");
const isLeftOver = (file) =>
  file.startsWith("program-") &&
  !launcher.includes(file.split(".")[0]) &&
  statSync(at(`dist/${file}`)).mtimeMs < beganMs;
for (const old of readdirSync(at("dist")).filter(isLeftOver)) rmSync(at(`dist/${old}`), { force: true });
