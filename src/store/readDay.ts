import type { DayFile } from "../record/logEntry.ts";
import { type Cabinet, type Found, putAside, readFrom } from "./cabinet.ts";
import { dayCodec } from "./dayCodec.ts";
import { dayPath } from "./layout.ts";

/** A day's file; set aside when it holds another day than its name says. */
export async function readDay(cabinet: Cabinet, day: string): Promise<Found<DayFile>> {
  const path = dayPath(cabinet.folder, day);
  const found = await readFrom(cabinet, path, dayCodec);
  if (found.is !== "read" || found.content.day === day) return found;
  return putAside(cabinet, path, `it holds the day ${found.content.day}`);
}
