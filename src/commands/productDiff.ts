import { type DiffSide, productDiffJson, productDiffPage } from "../report/productDiffPage.ts";
import { dataFolder } from "../store/dataFolder.ts";
import { done, type Ending, EXIT, ended, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";
import { looksLikePath, productIn } from "./productNamed.ts";
import { readShelf, type Shelf } from "./shelf.ts";

/** One side as it was named: a file, or a revision (or the draft) of a code. */
type Named = { readonly file: string } | { readonly code: string; readonly revision: number | "draft" };

const REVISION = /^(?:draft|[1-9]\d{0,8})$/;
const USAGE = "name two revisions: CODE 3 4, CODE 3 draft, FILE FILE, or CODE 3 FILE";

/** `sievewright product diff CODE REV REV`, `FILE FILE`, or one of each: what changed, in words. */
export async function productDiff(
  names: readonly string[],
  options: { json?: boolean; data?: string },
  io: Io,
): Promise<Ending> {
  const named = sidesIn(names);
  if (!named.ok) return named.ending;
  const shelf = await readShelf(dataFolder(options.data, io.env), io);
  const [before, after] = [await sideOf(named.value[0], shelf, io), await sideOf(named.value[1], shelf, io)];
  if (!before.ok) return before.ending;
  if (!after.ok) return after.ending;
  return done((options.json ? productDiffJson : productDiffPage)(before.value, after.value));
}

/** What has been read of the names so far: the code whose revisions follow, and whether one is still to come. */
interface Reading {
  readonly sides: readonly Named[];
  readonly code: string | null;
  readonly isOpen: boolean;
}

/** What follows a code are its revisions; a second one needs no code again. */
function readOn(reading: Reading, name: string): Reading {
  const { sides, code } = reading;
  if (looksLikePath(name)) return { ...reading, sides: [...sides, { file: name }] };
  if (code === null || !REVISION.test(name)) return { sides, code: name, isOpen: true };
  return { sides: [...sides, { code, revision: name === "draft" ? name : Number(name) }], code, isOpen: false };
}

function sidesIn(names: readonly string[]): Step<readonly [Named, Named]> {
  const { sides, code, isOpen } = names.reduce<Reading>(readOn, { sides: [], code: null, isOpen: false });
  if (isOpen) return ended(EXIT.usage, `which revision of ${code}? ${USAGE}`);
  const [before, after, ...more] = sides;
  if (before === undefined || after === undefined || more.length > 0) return ended(EXIT.usage, USAGE);
  return reached([before, after]);
}

async function sideOf(named: Named, { products, drafts, problems }: Shelf, io: Io): Promise<Step<DiffSide>> {
  if ("file" in named) {
    const product = await productIn(named.file, io);
    return product.ok ? reached({ content: product.value, name: named.file }) : product;
  }
  const { code, revision } = named;
  const known = products.revisions(code);
  const content =
    revision === "draft" ? drafts.find((one) => one.code === code) : known.find((one) => one.revision === revision);
  if (content === undefined) return ended(EXIT.notFound, problems[0] ?? missing(named, known));
  const name = revision === "draft" ? `${code} draft of revision ${content.revision}` : `${code} revision ${revision}`;
  return reached({ content, name });
}

function missing({ code, revision }: Extract<Named, { code: string }>, known: readonly { revision: number }[]): string {
  if (revision === "draft") return `there is no draft of ${code}`;
  const there = known.map((one) => one.revision).join(", ");
  return `${code} revision ${revision} is not in the library: ${there === "" ? "see product list" : `it has revisions ${there}`}`;
}
