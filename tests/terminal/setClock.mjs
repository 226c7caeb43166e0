// Loaded beneath the built program (node --import): its clock begins at SET_CLOCK (a moment with its offset) and jumps on
// by as many minutes as the file SET_CLOCK_ON holds, the counter of running time with it, as if that time had passed.
import { readFileSync } from "node:fs";
import { syncBuiltinESMExports } from "node:module";
import os from "node:os";

const RealDate = Date;
const begun = RealDate.now();
const [bootedS, from] = [os.uptime(), RealDate.parse(process.env.SET_CLOCK)];
const realUptime = os.uptime.bind(os);

function onMs() {
  try {
    return Number(readFileSync(process.env.SET_CLOCK_ON, "utf8")) * 60_000;
  } catch {
    return 0;
  }
}

const nowMs = () => from + (RealDate.now() - begun) + onMs();

globalThis.Date = class extends RealDate {
  constructor(...given) {
    super(...(given.length === 0 ? [nowMs()] : given));
  }
  static now() {
    return nowMs();
  }
};
os.uptime = () => bootedS + (realUptime() - bootedS) + onMs() / 1000;
syncBuiltinESMExports();
