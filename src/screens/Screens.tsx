import { Box } from "ink";
import { createElement, memo, useSyncExternalStore } from "react";
import type { Depth } from "../terminal/colour.ts";
import { useTerminalSize } from "../terminal/size.ts";
import { styledRow, stylesOf } from "../terminal/theme.ts";
import { frameOf } from "./frame.ts";
import { themeOf } from "./looks.ts";
import type { Shell } from "./shell.ts";

/**
 * One row; drawn again only when something in it changed. It is what a `Text` of Ink becomes, with its size given: Ink measures
 * a text of unknown size and keeps what it measured for good, a row after each key, for as long as the screens are up.
 */
const Row = memo(function Row({ text, columns }: { readonly text: string; readonly columns: number }) {
  return createElement("ink-text", { style: { width: columns, height: 1, flexShrink: 0 } }, text === "" ? " " : text);
});

const drawnRow = (text: string, row: number, columns: number) => createElement(Row, { key: row, text, columns });

/** The whole screen: the lines that the present place makes of the state, in the colours of the theme. */
export function Screens({ shell, depth }: { readonly shell: Shell; readonly depth: Depth }) {
  const app = useSyncExternalStore(shell.subscribe, shell.app);
  const size = useTerminalSize();
  const styles = stylesOf(themeOf(app), depth);
  const rows = frameOf(app, size).map((line, row) => drawnRow(styledRow(line, styles), row, size.columns));
  return createElement(Box, { flexDirection: "column", width: size.columns }, rows);
}
