import { done, type Ending, EXIT, ended, reached } from "./ending.ts";
import type { Io } from "./io.ts";
import { inStore, type ProductSignerOptions, refusedBy } from "./productSigner.ts";

/** `sievewright product discard CODE`: the draft goes; its file is kept beside. */
export async function productDiscard(code: string, options: ProductSignerOptions, io: Io): Promise<Ending> {
  const gone = await inStore(options, io, async ({ store }) => {
    if (!(await store.productDrafts()).some((draft) => draft.code === code))
      return ended(EXIT.notFound, `there is no draft of ${code}`);
    const kept = await store.discardProductDraft(code);
    return kept.ok ? reached(kept.value) : refusedBy(store, kept.reason);
  });
  return gone.ok ? done(`the draft of ${code} is discarded; its file is kept as ${gone.value}\n`) : gone.ending;
}
