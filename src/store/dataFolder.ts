import { resolve } from "node:path";
import envPaths from "env-paths";

/** Where a station's files lie: `--data`, else `SIEVEWRIGHT_DATA`, else the platform's folder for application data. */
export function dataFolder(
  asked: string | undefined,
  environment: Readonly<Record<string, string | undefined>>,
): string {
  const named = asked || environment.SIEVEWRIGHT_DATA;
  return resolve(named || envPaths("sievewright", { suffix: "" }).data);
}
