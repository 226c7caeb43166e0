import { shortSeal } from "../record/seal.ts";
import { copyPlace, generationsOf, witnessOf } from "../store/copyWitness.ts";
import { indexAgainstLog } from "../store/indexAgainstLog.ts";
import { indexRowOf } from "../store/indexRowOf.ts";
import { realDisk } from "../store/realDisk.ts";
import { readStation } from "../store/stationFile.ts";
import { UnsignedWatch } from "../store/unsigned.ts";
import { type Verified, verifyLog } from "../store/verify.ts";
import type { Witness } from "../store/witness.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { SIGNS } from "../terminal/signs.ts";
import { type Ending, EXIT, faulty } from "./ending.ts";
import type { Io } from "./io.ts";
import { PaperWatch, paperHead } from "./paperHead.ts";
import { readOnlyCabinet } from "./readOnlyCabinet.ts";
import { stationFolder } from "./stationFolder.ts";

export interface VerifyCommandOptions {
  readonly json?: boolean;
  readonly data?: string;
  /** A head that was written down: the beginning of its seal, or number and beginning. */
  readonly against?: string;
  readonly index?: boolean;
}

/** `sievewright verify`: the chain of the log from end to end; exit 0 if it is unbroken and as on paper, 1 if not. */
export async function verify(options: VerifyCommandOptions, io: Io): Promise<Ending> {
  const paper = options.against === undefined ? null : paperHead(options.against);
  if (paper === null && options.against !== undefined)
    return faulty(
      EXIT.usage,
      `--against "${options.against}": give the head as printed, such as "4413 6fa3 55b3" or 1234:44136fa355b3`,
    );
  const folder = await stationFolder(options.data, io);
  if (!folder.ok) return folder.ending;
  const watch = paper === null ? null : new PaperWatch(paper);
  const unsigned = new UnsignedWatch();
  const walked = await verifyLog(folder.value, realDisk, {
    witnesses: await copiesOf(folder.value),
    index: options.index === true,
    passing: (link, seal) => {
      watch?.passing(link, seal);
      unsigned.pass(link);
    },
  });
  const redrawn = options.index ? await indexAgainstLog(readOnlyCabinet(folder.value), indexRowOf) : [];
  const amiss = [...new Set([...(walked.indexAmiss ?? []), ...redrawn])];
  const verified: Verified = options.index ? { ...walked, indexAmiss: amiss } : walked;
  const against = watch?.verdict(verified.head, shortSeal) ?? null;
  const fails = !verified.ok || (against !== null && "fails" in against);
  const out = options.json ? asJson(verified, against, unsigned) : page(verified, against, unsigned);
  return { code: fails ? EXIT.fail : EXIT.ok, out, remark: () => indexRemark(verified) };
}

type Against = ReturnType<PaperWatch["verdict"]> | null;

/** The automatic copies, which know entries by their names alone. */
async function copiesOf(folder: string): Promise<readonly Witness[]> {
  const station = await readStation(folder, realDisk);
  if (!station.ok || station.value === null) return [];
  return (await generationsOf(copyPlace(folder, station.value), realDisk)).map(witnessOf);
}

function asJson(verified: Verified, against: Against, { count, named }: UnsignedWatch): string {
  const more = { ...(against === null ? {} : { against }), ...(count === 0 ? {} : { unsigned: { count, named } }) };
  return `${printedJson({ ...verified, ...more }, 0)}\n`;
}

function page({ entries, head, firstBroken }: Verified, against: Against, unsigned: UnsignedWatch): string {
  const count = `${entries} ${entries === 1 ? "entry" : "entries"}`;
  const lines = [
    firstBroken === undefined ? `UNBROKEN ${SIGNS.pass}  ${count}` : `BROKEN ${SIGNS.fail}  ${count}`,
    ...(firstBroken === undefined ? [] : [`${firstBroken.file}  ${firstBroken.how}`]),
    ...(against === null ? [] : [againstLine(against)]),
    ...unsignedLines(unsigned),
    ...(head === null
      ? ["the log is empty"]
      : [`head: entry ${head.number}, seal ${shortSeal(head.seal)}`, `whole seal ${head.seal}`]),
  ];
  return `${lines.join("\n")}\n`;
}

const againstLine = (against: ReturnType<PaperWatch["verdict"]>): string =>
  "fails" in against
    ? `NOT AS ON PAPER ${SIGNS.fail}  ${against.fails}`
    : `AS ON PAPER ${SIGNS.pass}  entry ${against.holds} has that seal, so nothing up to it was changed or cut off`;

const unsignedLines = ({ count, named }: UnsignedWatch): readonly string[] =>
  count === 0
    ? []
    : [
        `made without sign-on although the station asks for it: ${count}`,
        ...named.map(({ number, day, kind, by }) => `  entry ${number} of ${day}, ${kind}, by ${by}`),
        ...(count > named.length ? [`  and ${count - named.length} more`] : []),
      ];

const indexRemark = ({ indexAmiss = [] }: Verified): string | null =>
  indexAmiss.length === 0
    ? null
    : `the index of ${indexAmiss.join(", ")} doesn't say what the log says: run sievewright reindex`;
