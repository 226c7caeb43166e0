/** What became of one file of the shared folder, or would become of it. */
export interface ImportedFile {
  readonly file: string;
  /** "TH-0510 revision 3"; null for what can't be read. */
  readonly what: string | null;
  readonly is: "new" | "already there" | "refused";
  readonly why: string | null;
  /** What is amiss although it is loaded. */
  readonly note: string | null;
  readonly sha256: string | null;
}

export interface ImportReport {
  readonly folder: string;
  /** Whether anything was loaded, or only looked at. */
  readonly dryRun: boolean;
  /** In the order of their names. */
  readonly files: readonly ImportedFile[];
}

export interface Importing {
  readonly by: string;
  readonly at: string;
  readonly dryRun: boolean;
}

export const refusedCount = ({ files }: ImportReport): number => files.filter(({ is }) => is === "refused").length;
