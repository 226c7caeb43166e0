import type { Command } from "commander";
import type { Act } from "./act.ts";
import type { Io } from "./io.ts";
import type { ChangeOptions } from "./operatorChange.ts";
import { withSigner } from "./signer.ts";

export const DATA = ["--data <folder>", "the station's folder"] as const;
export const REASON = ["--reason <text>", "why, for the log"] as const;
export const NEW_PIN = [
  "--new-pin-file <file>",
  "take the new PIN from the first line of this file (or set SIEVEWRIGHT_NEW_PIN); else it is asked for",
] as const;

export const CODES = `
A PIN has 4 to 12 digits, or is a passphrase of 10 characters or more. It is never an argument of the command line.

Exit codes:
  0   done
  64  wrong use   66  no station in that folder   74  reading or writing failed, or the station is in use
  77  not permitted: wrong PIN, a role that may not, or a change that makes no sense`;

type Doing = typeof import("./operatorChange.ts");
type Does = (change: Doing, io: Io) => ReturnType<Doing["operatorPin"]>;

interface Adding {
  readonly changes: (name: string, summary: string) => Command;
  readonly doing: (does: Does) => Promise<void>;
}

/** The commands that change the list, one after the other. */
export function operatorChangeCommands(operator: Command, act: Act): void {
  const adding: Adding = {
    changes: (name, summary) =>
      withSigner(operator.command(name))
        .summary(summary)
        .description(`${summary.charAt(0).toUpperCase()}${summary.slice(1)}.`)
        .argument(name === "idle" ? "<minutes>" : "<initials>")
        .option(...REASON)
        .option(...DATA)
        .addHelpText("after", CODES),
    doing: (does) => act(async (io) => does(await import("./operatorChange.ts"), io)),
  };
  people(adding);
  state(adding);
}

function people({ changes, doing }: Adding): void {
  changes("add", "add somebody, with a PIN to begin with")
    .requiredOption("--name <name>", "the name to the initials")
    .requiredOption("--role <role>", "operator, quality or administrator")
    .option(...NEW_PIN)
    .action((initials: string, options: ChangeOptions & { name: string; role: string }) =>
      doing(({ operatorAdd }, io) => operatorAdd(initials, options, io)),
    );
  changes("role", "change somebody's role")
    .argument("<role>", "operator, quality or administrator")
    .action((initials: string, role: string, options: ChangeOptions) =>
      doing(({ operatorRole }, io) => operatorRole(initials, role, options, io)),
    );
  changes("pin", "set a PIN: one's own, or as administrator anybody's")
    .option(...NEW_PIN)
    .action((initials: string, options: ChangeOptions) =>
      doing(({ operatorPin }, io) => operatorPin(initials, options, io)),
    );
}

function state({ changes, doing }: Adding): void {
  changes("retire", "retire somebody; records keep their initials").action((initials: string, options: ChangeOptions) =>
    doing(({ operatorRetire }, io) => operatorRetire(initials, options, io)),
  );
  changes("return", "bring somebody back who was retired").action((initials: string, options: ChangeOptions) =>
    doing(({ operatorReturn }, io) => operatorReturn(initials, options, io)),
  );
  changes("idle", "set after how many minutes without a key people are signed off").action(
    (minutes: string, options: ChangeOptions) => doing(({ operatorIdle }, io) => operatorIdle(minutes, options, io)),
  );
}
