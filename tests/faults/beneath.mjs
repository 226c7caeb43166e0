// Loaded beneath the built program (node --import) before it starts: a file layer that fails as it is told, and faults of
// the program itself on demand. The program is the one that is shipped and knows nothing of this. What is wanted stands in
// the file that BENEATH names, read anew at each call, so that a disk can break and heal while the program runs:
//   { "faults": [{ "call", "path", "code", "bytes"?, "times"? }], "crash"?: "throw" | "reject" | "draw" | "key" }
// `bytes` of a write are written before it fails: a number, a share ("half", "butOne", "all"), or "inCharacter".
import fs from "node:fs";
import { syncBuiltinESMExports } from "node:module";

const control = process.env.BENEATH ?? "";
const real = { ...fs, readFileNow: fs.readFileSync.bind(fs), promises: { ...fs.promises } };
const spent = new Map();
const pathOf = new Map();

function wanted() {
  try {
    return JSON.parse(real.readFileNow(control, "utf8"));
  } catch {
    return {};
  }
}

/** The fault that meets this call, if any; each counts how often it struck. */
function meeting(call, path) {
  for (const one of wanted().faults ?? []) {
    if (one.call !== call || !new RegExp(one.path).test(String(path))) continue;
    const key = JSON.stringify(one);
    const struck = spent.get(key) ?? 0;
    if (one.times !== undefined && struck >= one.times) continue;
    spent.set(key, struck + 1);
    return one;
  }
  return null;
}

const trouble = (code, call, path) =>
  Object.assign(new Error(`${code}: made to fail, ${call} '${path}'`), { code, syscall: call, path });

/** How many bytes reach the disk before a write fails. */
function reached(bytes, wish) {
  if (typeof wish === "number") return Math.min(wish, bytes.length);
  if (wish === "half") return Math.floor(bytes.length / 2);
  if (wish === "butOne") return bytes.length - 1;
  if (wish === "inCharacter") return bytes.findIndex((byte) => byte >= 0xc0) + 1;
  return wish === "all" ? bytes.length : 0;
}

function failing(call, name, pathAt = (args) => args[0]) {
  fs[name] = (...args) => {
    const fault = meeting(call, pathAt(args));
    if (fault) throw trouble(fault.code, call, pathAt(args));
    return real[name](...args);
  };
}

fs.openSync = (path, flags, mode) => {
  const fault = meeting(flags === "wx" ? "create" : "open", path);
  if (fault) throw trouble(fault.code, "open", path);
  const file = real.openSync(path, flags, mode);
  pathOf.set(file, String(path));
  return file;
};
fs.writeFileSync = (file, text, options) => {
  const path = pathOf.get(file) ?? file;
  const fault = meeting("write", path);
  if (!fault) return real.writeFileSync(file, text, options);
  const bytes = Buffer.from(text);
  if (typeof file === "number") real.writeSync(file, bytes, 0, reached(bytes, fault.bytes));
  throw trouble(fault.code, "write", path);
};
fs.fsync = (file, done) => {
  const fault = meeting("flush", pathOf.get(file) ?? "");
  return fault ? process.nextTick(done, trouble(fault.code, "fsync", pathOf.get(file))) : real.fsync(file, done);
};
failing("rename", "renameSync", ([, to]) => to);
failing("remove", "rmSync");
failing("makeFolder", "mkdirSync");
fs.promises.readFile = async (path, ...rest) => {
  const fault = meeting("read", path);
  if (fault) throw trouble(fault.code, "read", path);
  return real.promises.readFile(path, ...rest);
};
syncBuiltinESMExports();

/** Faults of the program itself, each where a programmer's mistake would be. */
const CRASHES = {
  throw: () => setImmediate(() => crash("thrown by nobody's key")),
  reject: () => void Promise.reject(new Error("a promise that nobody kept")),
  key: () => {
    performance.now = () => crash("thrown in a key's handler");
  },
  draw: () => {
    const { repeat } = String.prototype;
    String.prototype.repeat = function (count) {
      return String(this) === "─" ? crash("thrown while drawing a rule") : repeat.call(this, count);
    };
  },
};
const crash = (story) => {
  throw new Error(story);
};

let crashed = false;
setInterval(() => {
  const how = crashed ? undefined : wanted().crash;
  if (how === undefined) return;
  crashed = true;
  CRASHES[how]();
}, 25).unref();
