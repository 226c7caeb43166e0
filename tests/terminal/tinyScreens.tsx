import { Box, Text } from "ink";
import { createBell } from "../../src/terminal/bell.ts";
import { colourDepth } from "../../src/terminal/colour.ts";
import type { Key } from "../../src/terminal/keys.ts";
import { type MountedScreens, mountScreens } from "../../src/terminal/mount.tsx";
import { fits, frameRows, useTerminalSize } from "../../src/terminal/size.ts";
import { styledRow, stylesOf } from "../../src/terminal/theme.ts";
import { wordOf } from "./decoding.ts";

const STYLES = stylesOf("dark", colourDepth(process.env, process.platform));
const PASS = styledRow([{ text: "PASS ✓", role: "pass" }], STYLES);

/** Fills the frame: a heading, what was heard last, numbered rows that reach the right edge, a footer. */
function Tiny({ heard, broken }: { heard: readonly string[]; broken: boolean }) {
  const size = useTerminalSize();
  if (broken) throw new Error("thrown while drawing");
  const room = Math.max(0, frameRows(size) - 4);
  const rule = (row: number) => `${row} `.padEnd(size.columns, "─");
  return (
    <Box flexDirection="column" width={size.columns} height={frameRows(size)} overflow="hidden">
      <Text wrap="truncate">
        tiny {size.columns}x{size.rows} {fits(size) ? "fits" : "too small"} {PASS}
      </Text>
      <Text wrap="truncate">keys {heard.length}</Text>
      <Text wrap="truncate-start">{`heard: ${heard.join(" ")}`}</Text>
      {Array.from({ length: room }, (_, row) => row).map((row) => (
        <Text key={row} wrap="truncate">
          {rule(row)}
        </Text>
      ))}
      <Text wrap="truncate">q quit</Text>
    </Box>
  );
}

export async function showTiny(): Promise<number> {
  const heard: string[] = [];
  let mounted: MountedScreens | null = null;
  const draw = (broken = false) => mounted?.rerender(<Tiny heard={[...heard]} broken={broken} />);
  const bell = createBell(process.stdout);

  const onKey = (key: Key) => {
    const word = wordOf(key);
    heard.push(word);
    if (word === "q" || word === "ctrl+c") return mounted?.unmount();
    if (word === "B") bell();
    if (word === "T") throw new Error("thrown by a key");
    if (word === "R") void Promise.reject(new Error("rejected by a key"));
    draw(word === "D");
  };
  mounted = mountScreens(<Tiny heard={heard} broken={false} />, {
    stdin: process.stdin,
    stdout: process.stdout,
    onKey,
  });
  await mounted.finished;
  return 0;
}
