import type { Ending } from "./ending.ts";
import type { Io } from "./io.ts";

/** Runs what a command does; its modules are loaded only then. */
export type Act = (command: (io: Io) => Promise<Ending>) => Promise<void>;
