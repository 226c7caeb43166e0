import { speaking } from "./speaking.ts";

/**
 * A figure with the decimal sign in use.
 *
 * @example inManner(mannerOf(station, "de"), () => figure("742.4")) // => "742,4"
 */
export const figure = (text: string): string => (speaking().decimal === "comma" ? text.replace(".", ",") : text);

/** A day of the log, e.g. 2026-11-24, in the order in use: 24.11.2026 in German, 24/11/2026, 11/24/2026. */
export function dayText(at: string): string {
  const [year = "", month = "", day = ""] = at.slice(0, 10).split("-");
  const { dates, language } = speaking();
  if (dates === "year first") return at.slice(0, 10);
  const sign = language === "de" ? "." : "/";
  return (dates === "day first" ? [day, month, year] : [month, day, year]).join(sign);
}

/** Day and month alone, in the order in use. */
export function shortDay(at: string): string {
  const [, month = "", day = ""] = at.slice(0, 10).split("-");
  const { dates, language } = speaking();
  if (dates === "year first") return at.slice(5, 10);
  const sign = language === "de" ? "." : "/";
  return (dates === "day first" ? [day, month] : [month, day]).join(sign);
}

/** The clock's time of a moment as it was written where it happened, 24 hours. */
export const clockText = (at: string): string => at.slice(11, 16);

/** Day and time: as wide in every order. */
export const momentText = (at: string): string => `${dayText(at)} ${clockText(at)}`;

/** Day, month and time: as wide in every order. */
export const shortMoment = (at: string): string => `${shortDay(at)} ${clockText(at)}`;
