// Writes what the bench found as docs/speed.md. What stands below the line that says so is kept: it is written by hand.
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

const atStart = loadavg();

const machine = () =>
  `${cpus().length} cores (${arch()}), ${(totalmem() / 1e9).toFixed(0)} GB of memory, ${platform()} ${release().split("-")[0]}, ` +
  `Node.js ${process.versions.node}. Load of the machine (processes that wanted a core, over 5 minutes): ` +
  `${atStart[1].toFixed(1)} when the bench began, ${loadavg()[1].toFixed(1)} when it ended, the bench itself among them.`;

const cell = (text) => text.trim().replaceAll("|", "\\|");
const met = (is) => (is === null ? "" : is ? "met" : "**missed**");
const row = ({ what, figure, floor, ratio, goal, met: is }) =>
  `| ${[what.startsWith("  ") ? `… ${what.trim()}` : what, figure, floor, ratio, goal, met(is)].map(cell).join(" | ")} |`;

const table = ({ name, lines }) => `## ${TITLES[name]}

| what | figure | against | ratio | goal | |
| --- | --: | --- | --: | --: | --- |
${lines.map(row).join("\n")}
`;

const byHand = () => {
  try {
    return readFileSync(PAGE, "utf8").split(BY_HAND)[1] ?? "\n";
  } catch {
    return "\n";
  }
};

export function writePage(sections) {
  const date = new Date().toISOString().slice(0, 10);
  const head = `# What things cost

Measured with \`npm run bench -- --doc\`, which writes this page, on ${date}. Ratios compare what ran in the same minutes on the
same machine, in turns; figures are medians unless something else is said. "Processor" counts the time of all threads of a program
on a core, "wall" the clock's; where other work competes for the cores only the first compares well.

Machine: ${machine()}
`;
  writeFileSync(PAGE, `${head}\n${sections.map(table).join("\n")}\n${BY_HAND}${byHand()}`);
}
