import { drawable, printable } from "../terminal/sanitise.ts";
import { type Ending, EXIT, faulty } from "./ending.ts";
import { type Io, minded, type Output, written } from "./io.ts";

/**
 * Prints how a command ended: the result on standard output, or one line on standard error and nothing else. All that a
 * command says goes through here, and nothing that a terminal would obey goes through.
 */
export async function conclude(ending: Ending, io: Io): Promise<number> {
  minded(io);
  const last = "fault" in ending ? ending : await printed(ending, io.stdout);
  const line = "fault" in last ? last.fault : last.remark?.();
  if (typeof line !== "string") return last.code;
  await written(io.stderr, `sievewright: ${drawable(line.trim().replace(/\s+/g, " "))}\n`);
  return "fault" in last ? last.code : EXIT.incomplete;
}

async function printed(ending: Extract<Ending, { out: unknown }>, stdout: Output): Promise<Ending> {
  for await (const part of typeof ending.out === "string" ? [ending.out] : ending.out) {
    const fault = await written(stdout, printable(part));
    if (fault === "hung up") break;
    if (fault) return faulty(EXIT.ioError, `the result can't be written: ${fault.message}`);
  }
  return ending;
}
