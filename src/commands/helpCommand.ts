import type { Command } from "commander";
import type { Act } from "./act.ts";

const MORE = `
A value is named by its id or its label (finenessModulus, Fineness modulus, FM), a percentile as d50; without a name
all values and topics are listed. The name of a command gives its usage.

Exit codes:
  0   told
  64  no such name, or one that several values share`;

export function helpCommand(program: Command, act: Act): void {
  program
    .command("help")
    .summary("tell about a value: formula, convention, needs, source")
    .description("Tells about a characteristic value or a topic; without a name, lists them.")
    .argument("[name...]", "a value's id or label, d50, or a topic")
    .addHelpText("after", MORE)
    .action((name: string[]) => {
      const command = program.commands.find((one) => one.name() === name[0] && name.length === 1);
      if (command) return command.outputHelp();
      return act(async (io) => (await import("./help.ts")).help(name.join(" "), io));
    });
}
