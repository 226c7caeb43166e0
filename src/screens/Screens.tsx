import { Box, Text } from "ink";
import { createElement, memo, useSyncExternalStore } from "react";
import { useTerminalSize } from "../terminal/size.ts";
import { THEME } from "../terminal/theme.ts";
import { frameOf } from "./frame.ts";
import type { Line } from "./line.ts";
import type { Shell } from "./shell.ts";

const same = (before: { spans: Line }, after: { spans: Line }) => JSON.stringify(before) === JSON.stringify(after);

/** One row; drawn again only when something in it changed. */
const Row = memo(function Row({ spans }: { readonly spans: Line }) {
  const texts = spans.map(({ text, role }) => createElement(Text, THEME[role], text));
  return createElement(Text, { wrap: "truncate" }, ...(texts.length > 0 ? texts : [" "]));
}, same);

/** The whole screen: the lines that the present place makes of the state. */
export function Screens({ shell }: { readonly shell: Shell }) {
  const app = useSyncExternalStore(shell.subscribe, shell.app);
  const size = useTerminalSize();
  const rows = frameOf(app, size).map((spans) => createElement(Row, { spans }));
  return createElement(Box, { flexDirection: "column", width: size.columns }, ...rows);
}
