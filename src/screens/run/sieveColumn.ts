import { standing, type Weighing } from "../../record/test.ts";
import type { Run } from "../../run/run.ts";
import { SIGNS } from "../../terminal/signs.ts";
import type { Role } from "../../terminal/theme.ts";
import { say } from "../../words/say.ts";
import { clipped, type Line, line, said, sentenceOf, span, textOf, unsaid } from "../line.ts";

interface Mark {
  readonly text: string;
  readonly role: Role;
}

/** Whether the sieve was scanned in this row, and what is amiss with it. */
function markOf({ draft }: Run, { serial, apertureUm }: Weighing): Mark | null {
  const known = draft.sieves?.find((one) => one.serial === serial);
  if (known?.state === "out of service") return { text: say`OUT !`, role: "fail" };
  if (known?.state === "overdue") return { text: say`overdue !`, role: "warning" };
  if (known?.state === "due") return { text: say`due !`, role: "warning" };
  const scan = standing(draft.trail).findLast((item) => item.field === "serial" && item.apertureUm === apertureUm);
  return scan?.to === serial ? { text: SIGNS.pass, role: "pass" } : null;
}

function cell(run: Run, weighing: Weighing | undefined): Line {
  if (weighing?.serial === undefined) return [];
  const mark = markOf(run, weighing);
  return [span(weighing.serial), ...(mark === null ? [] : [span(` ${mark.text}`, mark.role)])];
}

/** The table of the stack with the serial of each sieve beside its row; without serials the table alone. */
export function withSieves(run: Run, table: readonly Line[], from: number, columns: number): readonly Line[] {
  const { weighings } = run.draft;
  if (run.draft.stage !== "weigh empty" || weighings.every(({ serial }) => serial === undefined)) return table;
  return table.map((row, i) => {
    const own = i === 0 ? line(say`sieve, ${SIGNS.pass} scanned`, "dim") : cell(run, weighings[from + i - 1]);
    const joined = [...row, span("  "), ...clipped(own, Math.max(1, columns - 2))];
    if (i === 0) return unsaid(joined);
    const sentence = sentenceOf(row);
    return sentence === null || own.length === 0 ? joined : said(joined, () => say`${sentence}, sieve ${textOf(own)}`);
  });
}
