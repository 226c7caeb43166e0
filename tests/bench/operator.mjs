// How the benches work at the screens: keys as a person presses them, with looks at the screen between them.
import { pause } from "./terminal.mjs";

const KEY_MS = 15;
/** Before and after an Enter, so that nothing looks like the burst of a scanner. */
const ENTER_MS = 60;

export async function press(program, keys) {
  for (const key of keys) {
    if (key === "\r") await pause(ENTER_MS);
    program.write(key);
    await pause(key === "\r" ? ENTER_MS : KEY_MS);
  }
}

/** Presses, and presses Enter again where something is doubted, until the screen shows what comes next. */
export async function until(program, keys, seen) {
  program.forget();
  await press(program, keys);
  for (let tries = 0; !seen.test(program.output()); tries++) {
    if (tries > 400) throw new Error(`no ${seen} after ${keys} in:\n${program.output().slice(-3000)}`);
    await pause(25);
    if (tries % 40 === 39) await press(program, ["\r"]);
  }
}

/** From the bench to the first empty sieve: the first product of the list, no set of sieves, all else as it comes. */
export async function setOut(program, lot) {
  await until(program, ["n"], /sampling point/);
  await until(program, ["1", "\r"], /type or scan the lot/);
  await until(program, [...lot, "\r", "\r", "\r"], /scan the set|weigh the test portion/);
  if (!/weigh the test portion/.test(program.output())) await until(program, ["2", "\r"], /weigh the test portion/);
  await until(program, [..."300.20", "\r"], /weigh empty/);
}
