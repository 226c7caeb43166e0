import { lengthWords } from "../../care/words.ts";
import type { SieveCertificate } from "../../record/sieve.ts";
import { dayText, figure } from "../../words/figures.ts";
import { say } from "../../words/say.ts";

const length = (um: number): string => figure(lengthWords(um));

/** "warp mean 711.2 um s 12.0 um k 2.3 of 80": what a certificate says of one direction. */
function directionShown(mean: string, { deviationUm, factorK, measured }: SieveCertificate["warp"]): string {
  return [
    mean,
    ...(deviationUm === undefined ? [] : [`s ${length(deviationUm)}`]),
    ...(factorK === undefined ? [] : [`k ${figure(`${factorK}`)}`]),
    ...(measured === undefined ? [] : [say`of ${measured}`]),
  ].join(" ");
}

/** What the certificate of a sieve says, in one sentence, as `certificateWords` of the reports says it. */
export function certificateShown(certificate: SieveCertificate): string {
  const { number, day, laboratory, due, warp, weft, expandedUm } = certificate;
  const from =
    number === undefined
      ? say`of ${dayText(day)}, ${laboratory}`
      : say`no. ${number} of ${dayText(day)}, ${laboratory}`;
  return [
    from,
    directionShown(say`warp mean ${length(warp.meanUm)}`, warp),
    ...(weft === undefined ? [] : [directionShown(say`weft mean ${length(weft.meanUm)}`, weft)]),
    ...(expandedUm === undefined ? [] : [`U ${length(expandedUm)} (k = 2)`]),
    ...(due === undefined ? [] : [say`relied on until ${dayText(due)}`]),
  ].join("; ");
}
