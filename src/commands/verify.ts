import { shortSeal } from "../record/seal.ts";
import { copyPlace, generationsOf, witnessOf } from "../store/copyWitness.ts";
import { indexAgainstLog } from "../store/indexAgainstLog.ts";
import { indexRowOf } from "../store/indexRowOf.ts";
import { LibraryWatch, type Unlike } from "../store/libraryWatch.ts";
import { listInForce } from "../store/operatorsFile.ts";
import type { PeopleInLog } from "../store/operatorsRule.ts";
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

/** `sievewright verify`: the chain of the log from end to end and what it tells of; exit 0 if all is as recorded, 1 if not. */
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
  const library = new LibraryWatch();
  const walked = await verifyLog(folder.value, realDisk, {
    witnesses: await copiesOf(folder.value),
    index: options.index === true,
    passing: (link, seal) => {
      watch?.passing(link, seal);
      unsigned.pass(link);
      library.pass(link);
    },
  });
  const redrawn = options.index ? await indexAgainstLog(readOnlyCabinet(folder.value), indexRowOf) : [];
  const amiss = [...new Set([...(walked.indexAmiss ?? []), ...redrawn])];
  const verified: Verified = options.index ? { ...walked, indexAmiss: amiss } : walked;
  const against = watch?.verdict(verified.head, shortSeal) ?? null;
  const unlike = [
    ...(await library.amiss(folder.value, realDisk)),
    ...(await peopleAmiss(folder.value, unsigned.people)),
  ];
  const fails =
    !verified.ok || (against !== null && "fails" in against) || unlike.some(({ gone }) => !gone) || amiss.length > 0;
  const out = options.json ? asJson(verified, against, unsigned, unlike) : page(verified, against, unsigned, unlike);
  return { code: fails ? EXIT.fail : EXIT.ok, out, remark: () => indexRemark(verified) };
}

/** The list of people, where it isn't the one that the log tells of. */
async function peopleAmiss(folder: string, people: PeopleInLog): Promise<readonly Unlike[]> {
  const list = await listInForce(readOnlyCabinet(folder), people);
  const file = "operators.json";
  if (list.is === "not as logged") return [{ file, how: list.why }];
  if (people.rule === "none" || list.is === "read") return [];
  return [{ file, how: "it can't be read or is gone, but the log says that people sign on here" }];
}

type Against = ReturnType<PaperWatch["verdict"]> | null;

/** The automatic copies, which know entries by their names alone. */
async function copiesOf(folder: string): Promise<readonly Witness[]> {
  const station = await readStation(folder, realDisk);
  if (!station.ok || station.value === null) return [];
  return (await generationsOf(copyPlace(folder, station.value), realDisk)).map(witnessOf);
}

function asJson(
  verified: Verified,
  against: Against,
  { count, named }: UnsignedWatch,
  filesAmiss: readonly Unlike[],
): string {
  const more = {
    ...(against === null ? {} : { against }),
    ...(count === 0 ? {} : { unsigned: { count, named } }),
    ...(filesAmiss.length === 0 ? {} : { filesAmiss }),
  };
  return `${printedJson({ ...verified, ...more }, 0)}\n`;
}

function page(
  { entries, head, firstBroken }: Verified,
  against: Against,
  unsigned: UnsignedWatch,
  unlike: readonly Unlike[],
): string {
  const count = `${entries} ${entries === 1 ? "entry" : "entries"}`;
  const lines = [
    firstBroken === undefined ? `UNBROKEN ${SIGNS.pass}  ${count}` : `BROKEN ${SIGNS.fail}  ${count}`,
    ...(firstBroken === undefined ? [] : [`${firstBroken.file}  ${firstBroken.how}`]),
    ...(against === null ? [] : [againstLine(against)]),
    ...(unlike.length === 0 ? [] : [`NOT AS THE LOG SAYS ${SIGNS.fail}`]),
    ...unlike.map(({ file, how }) => `  ${file}  ${how}`),
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
