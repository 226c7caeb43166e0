import type { Command } from "commander";
import type { Act } from "./act.ts";

const MORE = `
A value is named by its id or its label (finenessModulus, Fineness modulus, FM), a percentile as d50; without a name
all values and topics are listed. The name of a command gives its usage; help term log tells about the word.
To read the manual: sievewright help --man | man -l -

Exit codes:
  0   told
  64  no such name, or one that several values share`;

const told = (command: Command) => ({
  usage: `${command.name()} ${command.usage()}`,
  summary: command.summary() || command.description().replace(/\s+/g, " "),
});

export function helpCommand(program: Command, act: Act): void {
  program
    .command("help")
    .summary("tell about a value, a term, the keys, or where figures come from")
    .description("Tells about a characteristic value, a topic or a term; without a name, lists what there is.")
    .argument("[name...]", "a value's id or label, d50, a topic, a term, keys, terms or standards")
    .option("--man", "print the whole manual as a man page (roff)")
    .addHelpText("after", MORE)
    .action((name: string[], { man }: { man?: true }) => {
      if (man) return act(async (io) => (await import("./help.ts")).helpMan(program.commands.map(told), io));
      const command = program.commands.find((one) => one.name() === name[0] && name.length === 1);
      if (command) return command.outputHelp();
      return act(async (io) => (await import("./help.ts")).help(name.join(" "), io));
    });
}
