import { Box, Text } from "ink";
import { createElement, useSyncExternalStore } from "react";
import { readingOf } from "./readingFrame.ts";
import type { Shell } from "./shell.ts";

/** The screens for a screen reader: the same state, as sentences in reading order. */
export function Reading({ shell }: { readonly shell: Shell }) {
  const app = useSyncExternalStore(shell.subscribe, shell.app);
  const rows = readingOf(app).map((text, row) => createElement(Text, { key: row }, text));
  return createElement(Box, { flexDirection: "column" }, ...rows);
}
