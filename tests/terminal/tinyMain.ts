import { launch } from "../../src/terminal/launcher.ts";

// The smallest program on src/terminal: what main.tsx is to the whole one.
const launched = await launch(async () => {
  const { showTiny } = await import("./tinyScreens.tsx");
  return showTiny();
});
if (!launched.ok) process.stderr.write(`${launched.reason}\n`);
process.exitCode = launched.ok ? launched.value : 64;
