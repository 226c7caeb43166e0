import { join } from "node:path";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import type { Cabinet } from "./cabinet.ts";
import { diskTrouble } from "./diskWords.ts";
import { pagesFolder } from "./layout.ts";

const MOST_OF_ONE_NAME = 99;

/** Keeps a page as a text file of its own; a name that is taken gets a number. Nothing is ever written over. */
export async function keepPage({ folder, disk }: Cabinet, name: string, text: string): Promise<Outcome<string>> {
  const pages = pagesFolder(folder);
  try {
    await disk.makeFolder(pages);
    const there = new Set(await disk.list(pages));
    for (let n = 1; n <= MOST_OF_ONE_NAME; n++) {
      const file = n === 1 ? `${name}.txt` : `${name}-${n}.txt`;
      if (there.has(file)) continue;
      const path = join(pages, file);
      await disk.writeAndSync(path, text);
      await disk.syncFolder(pages);
      return accepted(path);
    }
    return refused(`${pages} holds ${MOST_OF_ONE_NAME} pages named ${name} already: move some of them away`);
  } catch (fault) {
    return refused(diskTrouble(fault, "the page is not kept"));
  }
}
