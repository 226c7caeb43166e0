// Loaded before the built program (node --import): every way to the network throws and is written down, in the file that
// NETWORK_LOG names. The program knows nothing of it.
import childProcess from "node:child_process";
import dgram from "node:dgram";
import dns from "node:dns";
import { appendFileSync } from "node:fs";
import http from "node:http";
import http2 from "node:http2";
import https from "node:https";
import { syncBuiltinESMExports } from "node:module";
import net from "node:net";
import tls from "node:tls";

const log = process.env.NETWORK_LOG ?? "";

function barred(owner, ...names) {
  for (const name of names) {
    owner[name] = () => {
      appendFileSync(log, `${name}\n`);
      throw new Error(`no network: ${name}`);
    };
  }
}

barred(net, "connect", "createConnection", "createServer");
barred(net.Socket.prototype, "connect");
barred(net.Server.prototype, "listen");
barred(dgram, "createSocket");
barred(dns, "lookup", "resolve", "resolve4", "resolve6", "reverse", "setServers");
barred(dns.promises, "lookup", "resolve", "resolve4", "resolve6", "reverse");
barred(http, "request", "get", "createServer");
barred(https, "request", "get", "createServer");
barred(http2, "connect", "createServer", "createSecureServer");
barred(tls, "connect", "createServer");
barred(globalThis, "WebSocket", "EventSource");
// The layout engine that Ink uses carries its code as a data: address and has fetch() take it apart; no socket is opened for
// that, and any other address is barred.
const realFetch = globalThis.fetch;
barred(globalThis, "fetch");
const barredFetch = globalThis.fetch;
globalThis.fetch = (address, ...rest) =>
  String(address).startsWith("data:") ? realFetch(address, ...rest) : barredFetch(address, ...rest);
// A program started from here could go to the network instead.
barred(childProcess, "spawn", "spawnSync", "exec", "execSync", "execFile", "execFileSync", "fork");
syncBuiltinESMExports();

if (process.env.NETWORK_TRY === "yes") {
  try {
    net.connect(9, "127.0.0.1");
  } catch {
    // written down
  }
}
appendFileSync(log, "watched\n");
