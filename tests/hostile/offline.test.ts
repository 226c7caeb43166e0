import { existsSync, readdirSync, readFileSync } from "node:fs";
import { builtinModules } from "node:module";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { afterEach, describe, expect, test, vi } from "vitest";
import { folder, shared } from "../commands/inProcess.ts";
import { builtRun } from "../commands/realProcess.ts";
import { operatorsLeave, startOperator } from "../terminal/operator.ts";

vi.setConfig({ testTimeout: 120_000 }); // real processes on a machine that may be busy
afterEach(operatorsLeave);

const preload = new URL("noSockets.mjs", import.meta.url).href;

function watched() {
  const log = join(folder(), "network.txt");
  const attempts = (): readonly string[] => (existsSync(log) ? readFileSync(log, "utf8").trim().split("\n") : []);
  return { env: { NODE_OPTIONS: `--import ${preload}`, NETWORK_LOG: log }, attempts };
}

describe("the built program and the network", () => {
  test("the watch can bite: a socket opened beneath the program is written down", () => {
    const { env, attempts } = watched();
    builtRun(["--version"], "", { ...env, NETWORK_TRY: "yes" });
    expect(attempts()).toEqual(["connect", "watched"]);
  });

  test("no command asks for it: each runs to its end with every way out barred", () => {
    const { env, attempts } = watched();
    const data = join(folder(), "station");
    const copy = join(folder(), "copy.tgz");
    const at = ["--data", data];
    const commands: readonly (readonly [readonly string[], number])[] = [
      [["--version"], 0],
      [["evaluate", shared("sheets/TH-0510.csv"), "--product", shared("products/TH-0510.json")], 0],
      [["product", "import", shared("."), ...at], 0],
      [["product", "list", ...at], 0],
      [["log", ...at], 0],
      [["handover", ...at], 0],
      [["verify", ...at], 0],
      [["backup", copy, ...at], 0],
      [["restore", copy, "--data", join(folder(), "again")], 0],
      [["sieves", "600"], 0],
    ];
    for (const [argv, code] of commands) {
      const { status, stderr } = builtRun(argv, "", env);
      expect([argv, status, status === code ? "" : stderr]).toEqual([argv, code, ""]);
    }
    expect(attempts()).toEqual(commands.map(() => "watched"));
  });

  test("nor do the screens, from the bench to a recorded entry", async () => {
    const { env, attempts } = watched();
    const op = await startOperator({ args: ["demo"], env });
    await op.sees("Tessel Hollow");
    await op.presses("l");
    await op.presses("escape", "h", "escape", "p", "enter", "escape", "escape", "m", "escape", "q");
    expect(await op.exit()).toBe(0);
    expect(attempts()).toEqual(["watched"]);
  });
});

const NETWORK = /^(?:node:)?(?:net|tls|dns|dgram|https?|http2|inspector|cluster)(?:\/|$)/;

describe("the bundle", () => {
  const importsOf = async (options: object) => {
    const { metafile } = await build({
      entryPoints: [fileURLToPath(new URL("../../src/main.tsx", import.meta.url))],
      bundle: true,
      platform: "node",
      format: "esm",
      write: false,
      metafile: true,
      outfile: "main.mjs",
      external: ["*/devtools.js"],
      define: { "process.env.NODE_ENV": '"production"', SIEVEWRIGHT_VERSION: '"x"' },
      ...options,
    });
    return Object.entries(metafile.inputs).flatMap(([from, { imports }]) =>
      imports.filter(({ external }) => external).map(({ path }) => ({ from, path })),
    );
  };

  test("takes none of the modules that reach the network, neither its own code nor a library's", async () => {
    const imports = await importsOf({});
    expect(imports.length).toBeGreaterThan(50);
    expect(imports.filter(({ path }) => NETWORK.test(path))).toEqual([]);
    const strangers = imports.filter(
      ({ path }) => !builtinModules.includes(path.replace(/^node:/, "").split("/")[0] ?? ""),
    );
    // Ink asks for its developer tools only where DEV is set, and the launcher takes DEV away
    expect(strangers.map(({ path }) => path)).toEqual(["./devtools.js"]);
  });

  test("starts other programs only in libraries: to ask how large the window is, and for commands that are programs", async () => {
    const starts = (await importsOf({})).filter(({ path }) =>
      /^(?:node:)?(?:child_process|worker_threads)$/.test(path),
    );
    expect(starts.map(({ from }) => from.replace(/^.*node_modules\//, "").split("/")[0])).toEqual([
      "terminal-size",
      "commander",
    ]);
  });

  test("our own code names no fetch, socket or beacon", () => {
    const src = fileURLToPath(new URL("../../src", import.meta.url));
    const files = readdirSync(src, { recursive: true, encoding: "utf8" }).filter((name) => /\.tsx?$/.test(name));
    const naming = files.filter((name) =>
      /\bfetch\(|\b(?:WebSocket|EventSource|XMLHttpRequest|sendBeacon)\b|from "node:(?:net|tls|dns|dgram|https?|http2|child_process)"/.test(
        readFileSync(join(src, name), "utf8"),
      ),
    );
    expect(files.length).toBeGreaterThan(300);
    expect(naming).toEqual([]);
  });
});
