import { spawn, spawnSync } from "node:child_process";
import { mkdtempSync, openSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, test } from "vitest";
import { EvaluationSchema } from "../../src/record/evaluation.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));
const program = join(root, "dist", "sievewright.mjs");
const home = mkdtempSync(join(tmpdir(), "sievewright-home-"));
afterAll(() => rmSync(home, { recursive: true, force: true }));

const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
const env = {
  PATH: process.env.PATH,
  HOME: home,
  XDG_DATA_HOME: home,
  LOCALAPPDATA: home,
  USERPROFILE: home,
  LANG: "C.UTF-8",
};
const run = (args: readonly string[], input = "") =>
  spawnSync(process.execPath, [program, ...args], { cwd: join(root, "shared"), env, input, encoding: "utf8" });

const sheet = "sheets/TH-0510.csv";
const product = "products/TH-0510.json";

describe("the built program", () => {
  test("evaluates a sheet against a product file and makes nothing anywhere", () => {
    const { status, stdout, stderr } = run(["evaluate", sheet, "--product", product]);
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    expect(stdout).toContain("TEST VALID ✓   PRODUCT PASS ✓");
    expect(readdirSync(home)).toEqual([]);
  });

  test("looks for the sheet's product in a library that isn't there, and makes nothing", () => {
    const { status, stdout, stderr } = run(["evaluate", sheet, "--json"]);
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    expect(EvaluationSchema.parse(JSON.parse(stdout)).notices.map(({ id }) => id)).toEqual(["product-unknown"]);
    expect(readdirSync(home)).toEqual([]);
  });

  test("draws a curve over the certified apertures of its station's register, and judges nothing without it", () => {
    const data = mkdtempSync(join(tmpdir(), "sievewright-certified-"));
    const written = (name: string, content: object): string => {
      const path = join(data, name);
      writeFileSync(path, JSON.stringify(content));
      return path;
    };
    const station = join(data, "station");
    const asked = JSON.parse(readFileSync(join(root, "shared", product), "utf8"));
    const certified = written("product.json", { ...asked, method: { ...asked.method, apertures: "certified" } });
    const sieves = [1400, 1000, 710, 500, 355].map((apertureUm) =>
      written(`s${apertureUm}.json`, {
        schema: "sievewright.sieve/1",
        serial: `S-${apertureUm}`,
        apertureUm,
        certificate: {
          day: "2026-03-02",
          laboratory: "Invented Metrology",
          warp: { meanUm: apertureUm + 1 },
          expandedUm: 1,
        },
      }),
    );
    const masses = "1400,5.71,S-1400\n1000,56.46,S-1000\n710,103.6,S-710\n500,98.4,S-500\n355,31.8,S-355\n";
    const rows = `aperture_um,net_g,sieve\n${masses}pan,0,\n`;
    try {
      expect(run(["product", "add", product, "--data", station, "--by", "SB"]).status).toBe(0);
      expect(run(["register", ...sieves, "--data", station, "--by", "SB"]).status).toBe(0);
      const judged = run(["evaluate", "-", "--product", certified, "--data", station, "--json"], rows);
      expect(judged.status).toBe(0);
      const { apertures, verdict } = EvaluationSchema.parse(JSON.parse(judged.stdout));
      expect(apertures?.of.map(({ serial, meanUm }) => [serial, meanUm])).toEqual(
        [1400, 1000, 710, 500, 355].map((um) => [`S-${um}`, um + 1]),
      );
      expect(verdict.product).toBe("pass");
      const shown = run(["evaluate", "-", "--product", certified, "--data", station], rows);
      expect(shown.stdout).toContain("curve drawn over certified mean apertures");
      const without = run(["evaluate", "-", "--product", certified, "--data", join(data, "none"), "--json"], rows);
      expect(without.status).toBe(2);
      expect(EvaluationSchema.parse(JSON.parse(without.stdout)).verdict.product).toBe("not judged");
    } finally {
      rmSync(data, { recursive: true, force: true });
    }
  });

  test.each([
    [[sheet, "--product", product], "", 0],
    [["-", "--product", product], "aperture_um,net_g\n1400,50\n710,100\n500,90\n355,20\npan,9\n", 1],
    [["-", "--product", product], "aperture_um,net_g\n1400,5\n710,150\n500,90\n355,20\npan,9\n", 2],
    [["-", "--product", product], "# charge_g: 400\naperture_um,net_g\n1400,5\n710,150\n500,90\n355,20\npan,9\n", 3],
    [[], "", 64],
    [["-"], "aperture_um,net_g\n1400,x\n", 65],
    [["sheets/none.csv"], "", 66],
    [["sheets"], "", 66],
  ])("evaluate %j ends with its own exit code", (args, input, code) => {
    const { status, stdout, stderr } = run(["evaluate", ...args], input);
    expect(status).toBe(code);
    if (code >= 64) {
      expect(stdout).toBe("");
      expect(stderr).toMatch(/^sievewright: [^\n]+\n$/);
    } else expect(stderr).toBe("");
  });

  test("reads a sheet from a pipe", () => {
    const { status, stdout } = run(["evaluate", "-", "--json"], readFileSync(join(root, "shared", sheet), "utf8"));
    expect(status).toBe(0);
    expect(EvaluationSchema.parse(JSON.parse(stdout)).recoveredG).toBe(299.9);
  });

  test("prints its version and its help", () => {
    expect(run(["--version"])).toMatchObject({ status: 0, stdout: `${version}\n`, stderr: "" });
    expect(run(["--help"])).toMatchObject({ status: 0, stderr: "" });
    expect(run(["evaluate", "--help"]).stdout).toContain("The exit code is the verdict.");
  });

  test("loads, lists and shows products, and proves its log", () => {
    const data = mkdtempSync(join(tmpdir(), "sievewright-data-"));
    const at = (...args: string[]) => run([...args, "--data", data]);
    expect(at("product", "add", product, "--by", "KO")).toMatchObject({ status: 0, stderr: "" });
    expect(at("product", "list").stdout).toContain("TH-0510  rev 3");
    expect(at("product", "show", "TH-0510").stdout).toContain("passing 710 um");
    expect(at("evaluate", sheet).stdout).toContain("PRODUCT PASS ✓");
    const logged = at("log", "--json").stdout.trimEnd().split("\n");
    expect(logged.map((line) => JSON.parse(line))).toMatchObject([
      { kind: "station declared", signOn: "none", number: 1 },
      { kind: "product loaded", number: 2 },
    ]);
    expect(at("verify")).toMatchObject({ status: 0 });
    expect(at("reindex")).toMatchObject({ status: 0, stderr: "" });
    rmSync(data, { recursive: true, force: true });
  });

  test("ends quietly when the reader of its output has gone", async () => {
    const child = spawn(process.execPath, [program, "evaluate", sheet, "--json"], { cwd: join(root, "shared"), env });
    child.stdout.destroy();
    let complaint = "";
    child.stderr.on("data", (part) => {
      complaint += part;
    });
    const code = await new Promise((resolve) => child.on("close", resolve));
    expect({ code, complaint }).toEqual({ code: 0, complaint: "" });
  });

  test.runIf(process.platform === "linux")("says so, 74, when its output can't be written", () => {
    const stdio = ["ignore", openSync("/dev/full", "w"), "pipe"] as const;
    const { status, stderr } = spawnSync(process.execPath, [program, "evaluate", sheet], {
      cwd: join(root, "shared"),
      env,
      stdio: [...stdio],
      encoding: "utf8",
    });
    expect(status).toBe(74);
    expect(stderr).toMatch(/^sievewright: the result can't be written: [^\n]+\n$/);
  });
});
