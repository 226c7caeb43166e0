import type { Frame } from "../../record/procedure.ts";

/** Frames sold by inch under a rounded metric name. */
const NAMED_MM: Readonly<Record<number, number>> = { 203: 203.2, 305: 304.8 };

/**
 * Area inside a sieve frame in mm2: of a round frame the circle of its diameter less the rim, of a rectangular frame
 * its sides as given. 203 and 305 mm stand for 8 in. and 12 in. frames (203.2 and 304.8 mm).
 *
 * @param rimMm how much smaller the sieving diameter of a round frame is than the frame
 * @returns area in mm2; 0 for a frame that is all rim
 */
export function frameAreaMm2(frame: Frame, rimMm: number): number {
  if (typeof frame !== "number") return frame.widthMm * frame.lengthMm;
  const diameterMm = Math.max(0, (NAMED_MM[frame] ?? frame) - rimMm);
  return (Math.PI / 4) * diameterMm ** 2;
}
