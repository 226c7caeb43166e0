import { say } from "../words/say.ts";
import type { App, Effect } from "./place.ts";
import { isSaved } from "./run/following.ts";

type Save = Extract<Effect, { do: "save" | "saveProductDraft" }>;

/** What would bring to disk all that isn't on it. */
export const savesDue = ({ drafts, productDrafts, saved }: App): readonly Save[] => [
  ...drafts.filter((draft) => !isSaved({ saved }, draft)).map((draft): Save => ({ do: "save", draft })),
  ...productDrafts.filter(({ onDisk }) => !onDisk).map(({ draft }): Save => ({ do: "saveProductDraft", draft })),
];

/** Said at once; a further refusal for the same reason leaves the message of the moment alone, and the warning stands. */
export const refusedByDisk = (app: App, reason: string): App => ({
  ...app,
  message: app.notOnDisk === reason ? app.message : say`not on disk: ${reason}`,
  notOnDisk: reason,
});

/** The app with its warning of the disk taken back, once nothing is left that it refused. */
export function onDiskAgain(app: App): App {
  const { notOnDisk, message } = app;
  if (!notOnDisk || savesDue(app).length > 0) return app;
  const other = message === null || message.includes(notOnDisk) ? "" : ` · ${message}`;
  return { ...app, notOnDisk: null, message: say`on disk again: all that was entered is saved${other}` };
}

/** The warning that stands in every place while something is not on disk; null where the message says it already. */
export const standingWarning = ({ notOnDisk, message }: App): string | null =>
  notOnDisk && !message?.includes(notOnDisk) ? say`! not on disk: ${notOnDisk}` : null;
