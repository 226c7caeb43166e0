import { spawnSync } from "node:child_process";

/** The number of a process that has come to its end. */
export const deadProcess = (): number => spawnSync(process.execPath, ["-e", ""]).pid;
