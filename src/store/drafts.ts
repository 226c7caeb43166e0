import { Low } from "lowdb";
import { accepted, type Outcome, refused } from "../entry/outcome.ts";
import { type Draft, DraftSchema } from "../record/draft.ts";
import { draftKind } from "../record/kinds.ts";
import { faultInWords } from "../record/migrate.ts";
import { practiceRefusal } from "../record/practice.ts";
import { type Cabinet, putAside, readFrom } from "./cabinet.ts";
import { diskTrouble } from "./diskWords.ts";
import { codecOf, type DurableFile, durableFile } from "./durableFile.ts";
import { draftPath, draftsFolder, nameRefusal, recordName } from "./layout.ts";

/** The tests in progress: one file each, rewritten at every accepted weighing. */
export interface Drafts {
  all(): readonly Draft[];
  save(draft: Draft): Promise<Outcome<void>>;
  drop(testId: string): Promise<Outcome<void>>;
  /** Drops the draft of a test that is recorded; from now on it can't be saved any more. */
  retire(testId: string): Promise<Outcome<void>>;
  /** Resolves when nothing is being written any more. */
  settled(): Promise<void>;
}

interface Kept {
  readonly file: DurableFile<Draft>;
  readonly low: Low<Draft>;
}

const codec = codecOf(draftKind);

export async function openDrafts(cabinet: Cabinet): Promise<Drafts> {
  const kept = new Map<string, Kept>();
  const retired = new Set<string>();
  const keep = (draft: Draft): Kept => {
    const file = durableFile(draftPath(cabinet.folder, draft.testId), codec, cabinet.disk);
    const fresh = { file, low: new Low<Draft>(file, draft) };
    kept.set(draft.testId, fresh);
    return fresh;
  };
  for (const draft of await readDrafts(cabinet)) keep(draft);

  async function save(draft: Draft): Promise<Outcome<void>> {
    const unfit =
      cabinet.readOnly() ?? practiceRefusal(draft) ?? recordedRefusal(draft, retired) ?? draftRefusal(draft, kept);
    if (unfit !== null) return refused(unfit);
    const { low } = kept.get(draft.testId) ?? keep(draft);
    low.data = draft;
    return outcomeOf(low.write(), "the last entry is not saved yet");
  }

  async function drop(testId: string): Promise<Outcome<void>> {
    const why = await cabinet.refusal();
    if (why !== null) return refused(why);
    const file = kept.get(testId)?.file;
    if (file === undefined) return accepted(undefined);
    const dropped = await outcomeOf(file.drop(), `the draft of test ${testId} could not be removed`);
    if (dropped.ok) kept.delete(testId);
    return dropped;
  }

  /** Also those whose removal failed before. */
  const dropRetired = async (): Promise<readonly Outcome<void>[]> =>
    Promise.all([...kept.keys()].filter((id) => retired.has(id)).map(drop));

  return {
    all: () =>
      [...kept.values()]
        .map((one) => one.low.data)
        .filter((one) => !retired.has(one.testId))
        .sort(byBeginning),
    save,
    drop,
    async retire(testId) {
      retired.add(testId);
      const dropped = await dropRetired();
      return dropped.find((one) => !one.ok) ?? accepted(undefined);
    },
    async settled() {
      await dropRetired();
      await Promise.all([...kept.values()].map((one) => one.file.settled()));
    },
  };
}

const recordedRefusal = ({ testId }: Draft, retired: ReadonlySet<string>): string | null =>
  retired.has(testId) ? `test ${testId} is recorded; nothing more can be entered in it` : null;

/** What was accepted stays in memory whatever the disk says, so that saving again saves everything. */
async function outcomeOf(done: Promise<void>, otherwise: string): Promise<Outcome<void>> {
  try {
    return accepted(await done);
  } catch (fault) {
    return refused(diskTrouble(fault, otherwise));
  }
}

/** What would not be read back is not written either. */
function draftRefusal(draft: Draft, kept: ReadonlyMap<string, unknown>): string | null {
  const parsed = DraftSchema.safeParse(draft);
  if (!parsed.success) return `the draft can't be saved: ${faultInWords(parsed.error)}`;
  const name = nameRefusal(draft.testId);
  if (name !== null || kept.has(draft.testId)) return name;
  const twin = [...kept.keys()].find((id) => id.toLowerCase() === draft.testId.toLowerCase());
  return twin === undefined ? null : `test ${draft.testId} differs from test ${twin} only by letter case`;
}

async function readDrafts(cabinet: Cabinet): Promise<readonly Draft[]> {
  const found: Draft[] = [];
  const names = (await cabinet.disk.list(draftsFolder(cabinet.folder))).map(recordName);
  for (const name of names.filter((one) => one !== null)) {
    const path = draftPath(cabinet.folder, name);
    const draft = await readFrom(cabinet, path, codec);
    if (draft.is !== "read") continue;
    if (draft.content.testId === name) found.push(draft.content);
    else await putAside(cabinet, path, `it holds test ${draft.content.testId}`);
  }
  return found;
}

const byBeginning = (a: Draft, b: Draft): number =>
  Date.parse(a.startedAt) - Date.parse(b.startedAt) || (a.testId < b.testId ? -1 : 1);
