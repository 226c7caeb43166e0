import type { App } from "./place.ts";
import { inPractice, practiceSpan } from "./practice/practice.ts";
import type { Room } from "./room.ts";
import { roomOf } from "./rooms.ts";

/** The title of the present place; in practice that word and its sign stand first, wherever one looks from there. */
export function titleOf(app: App): ReturnType<Room["title"]> {
  const title = roomOf(app.place).title(app);
  return inPractice(app) ? { ...title, mark: practiceSpan() } : title;
}
