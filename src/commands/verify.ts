import { shortSeal } from "../record/seal.ts";
import { type Verified, verifyLog } from "../store/verify.ts";
import { SIGNS } from "../terminal/signs.ts";
import { type Ending, EXIT, faulty } from "./ending.ts";
import type { Io } from "./io.ts";
import { PaperWatch, paperHead } from "./paperHead.ts";
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
  const verified = await verifyLog(folder.value, undefined, {
    index: options.index === true,
    ...(watch === null ? {} : { passing: watch.passing }),
  });
  const against = watch?.verdict(verified.head, shortSeal) ?? null;
  const fails = !verified.ok || (against !== null && "fails" in against);
  const out = options.json
    ? `${JSON.stringify({ ...verified, ...(against === null ? {} : { against }) })}\n`
    : page(verified, against);
  return { code: fails ? EXIT.fail : EXIT.ok, out, remark: () => indexRemark(verified) };
}

function page({ entries, head, firstBroken }: Verified, against: ReturnType<PaperWatch["verdict"]> | null): string {
  const count = `${entries} ${entries === 1 ? "entry" : "entries"}`;
  const lines = [
    firstBroken === undefined ? `UNBROKEN ${SIGNS.pass}  ${count}` : `BROKEN ${SIGNS.fail}  ${count}`,
    ...(firstBroken === undefined ? [] : [`${firstBroken.file}  ${firstBroken.how}`]),
    ...(against === null ? [] : [againstLine(against)]),
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

const indexRemark = ({ indexAmiss = [] }: Verified): string | null =>
  indexAmiss.length === 0
    ? null
    : `the index of ${indexAmiss.join(", ")} doesn't say what the log says: run sievewright reindex`;
