// Writes what the bench found as docs/speed.md: a table a part. Parts that were not measured this time stay as they are, and so
// does what stands below the line that says so.
import { readFileSync, writeFileSync } from "node:fs";
import { arch, cpus, loadavg, platform, release, totalmem } from "node:os";
import { fileURLToPath } from "node:url";

const PAGE = fileURLToPath(new URL("../../docs/speed.md", import.meta.url));
const BY_HAND = "<!-- Written by hand from here on. -->";

const TITLES = {
  startup: "Start",
  keys: "Keys",
  save: "Saving",
  shift: "Memory of a shift",
  evaluate: "Evaluate",
  computing: "Computing",
};

const HEAD = `# What things cost

Written by \`npm run bench -- --doc\`. Ratios compare what ran in the same minutes on the same machine, in turns; figures are
medians unless something else is said. "Processor" counts the time of all threads of a program on a core, "wall" the clock's;
where other work competes for the cores only the first compares well. The load of a machine is how many processes wanted a core
at once, on average over five minutes, the bench itself among them.
`;

const machine = () =>
  `${cpus().length} cores (${arch()}), ${(totalmem() / 1e9).toFixed(0)} GB of memory, ${platform()} ${release().split("-")[0]}, ` +
  `Node.js ${process.versions.node}`;

const cell = (text) => text.trim().replaceAll("|", "\\|");
const met = (is) => (is === null ? "" : is ? "met" : "**missed**");
const row = ({ what, figure, floor, ratio, goal, met: is }) =>
  `| ${[what.startsWith("  ") ? `… ${what.trim()}` : what, figure, floor, ratio, goal, met(is)].map(cell).join(" | ")} |`;

const tableOf = ({ lines, load }) => `
Measured on ${new Date().toISOString().slice(0, 10)}: ${machine()}; load ${load.toFixed(1)}.

| what | figure | against | ratio | goal | |
| --- | --: | --- | --: | --: | --- |
${lines.map(row).join("\n")}

`;

function pageNow() {
  try {
    const [measured = "", byHand = "\n"] = readFileSync(PAGE, "utf8").split(BY_HAND);
    const parts = measured.split(/^## /m).slice(1);
    return { parts: new Map(parts.map((part) => [part.split("\n")[0], part.slice(part.indexOf("\n") + 1)])), byHand };
  } catch {
    return { parts: new Map(), byHand: "\n" };
  }
}

/** The load of the machine while a part was measured. */
export const loadNow = () => loadavg()[1];

export function writePage(section) {
  const { parts, byHand } = pageNow();
  parts.set(TITLES[section.name], tableOf(section));
  const known = Object.values(TITLES).filter((title) => parts.has(title));
  const tables = known.map((title) => `## ${title}\n${parts.get(title)}`);
  writeFileSync(PAGE, `${HEAD}\n${tables.join("")}${BY_HAND}${byHand}`);
}
