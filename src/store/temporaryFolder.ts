import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** Gives work a fresh folder of its own, for this user's eyes only, and removes it afterwards, however the work ends. */
export async function withTemporaryFolder<T>(work: (folder: string) => Promise<T>): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), "sievewright-demo-"));
  try {
    return await work(folder);
  } finally {
    await rm(folder, { recursive: true, force: true, maxRetries: 5 });
  }
}
