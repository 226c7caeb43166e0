import { Command, CommanderError } from "commander";
import type { Act } from "./act.ts";
import { backupCommand } from "./backupCommand.ts";
import { compareCommand } from "./compareCommand.ts";
import { conclude } from "./conclude.ts";
import { deckCommand } from "./deckCommand.ts";
import { demoCommand } from "./demoCommand.ts";
import { done, type Ending, EXIT, faulty } from "./ending.ts";
import { evaluateCommand } from "./evaluateCommand.ts";
import { handoverCommand } from "./handoverCommand.ts";
import { helpCommand } from "./helpCommand.ts";
import type { Io } from "./io.ts";
import { logCommand } from "./logCommand.ts";
import { operatorCommand } from "./operatorCommand.ts";
import { planCommand } from "./planCommand.ts";
import { productCommand } from "./productCommand.ts";
import { programCommand } from "./programCommand.ts";
import { recordCommand } from "./recordCommand.ts";
import { referenceCommand } from "./referenceCommand.ts";
import { registerCommand } from "./registerCommand.ts";
import { reindexCommand } from "./reindexCommand.ts";
import { replicatesCommand } from "./replicatesCommand.ts";
import { restoreCommand } from "./restoreCommand.ts";
import { shakerCommand } from "./shakerCommand.ts";
import { sieveCommand } from "./sieveCommand.ts";
import { sievesCommand } from "./sievesCommand.ts";
import { trendCommand } from "./trendCommand.ts";
import { verifyCommand } from "./verifyCommand.ts";

/** Each adds one command, in the order of the help page. */
const COMMANDS = [
  evaluateCommand,
  productCommand,
  programCommand,
  logCommand,
  recordCommand,
  handoverCommand,
  trendCommand,
  planCommand,
  replicatesCommand,
  operatorCommand,
  verifyCommand,
  backupCommand,
  restoreCommand,
  reindexCommand,
  deckCommand,
  shakerCommand,
  sievesCommand,
  sieveCommand,
  registerCommand,
  referenceCommand,
  compareCommand,
  demoCommand,
  helpCommand,
];

/**
 * Runs one command line, without the program's own name.
 *
 * @returns the exit code; by then everything is printed
 */
export async function runCommand(argv: readonly string[], io: Io): Promise<number> {
  return conclude(await endingOf(argv, io), io);
}

async function endingOf(argv: readonly string[], io: Io): Promise<Ending> {
  let ending: Ending | null = null;
  const said = { out: "", wrong: "" };
  const act: Act = async (command) => {
    ending = await command(io);
  };
  const program = commandLine(said, io, act);
  try {
    await program.parseAsync([...argv], { from: "user" });
    return ending ?? done(said.out);
  } catch (fault) {
    if (!(fault instanceof CommanderError)) return breakdown(fault);
    return fault.exitCode === 0 ? done(said.out) : wrongUse(fault, said.wrong, program, argv);
  }
}

function commandLine(said: { out: string; wrong: string }, io: Io, act: Act): Command {
  const program = new Command("sievewright")
    .description("Test sieving at the line: weigh, see the size distribution and both verdicts, record it.")
    .version(io.version, "--version", "print the version")
    .helpOption("--help", "print this help")
    .helpCommand(false)
    .exitOverride()
    .configureOutput({
      writeOut: (text) => {
        said.out += text;
      },
      writeErr: (text) => {
        said.wrong += text;
      },
      getOutHelpWidth: () => io.stdout.columns ?? 80,
    })
    .addHelpText("after", "\nWithout a command the screens open (needs a terminal).");
  for (const add of COMMANDS) add(program, act);
  return program;
}

/** What commander stopped at, in one line, with the help page that says how it is meant. */
function wrongUse({ code }: CommanderError, said: string, program: Command, [name = ""]: readonly string[]): Ending {
  const wrong = code === "commander.help" ? "name what to do" : said.trim().replace(/^error: |[.]$/g, "");
  const page = program.commands.some((command) => command.name() === name) ? ` ${name}` : "";
  return faulty(EXIT.usage, `${wrong}; see sievewright${page} --help`);
}

/** A fault of the disk or of the program itself, in one line: the rest of the station goes on. */
function breakdown(fault: unknown): Ending {
  const told = fault instanceof Error ? fault : new Error(String(fault));
  if ("code" in told && typeof told.code === "string")
    return faulty(EXIT.ioError, `${told.message}: check the disk and try again`);
  return faulty(EXIT.internal, `a fault of the program itself: ${told.message}. Please report it`);
}
