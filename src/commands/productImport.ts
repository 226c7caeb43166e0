import { resolve } from "node:path";
import { refused } from "../entry/outcome.ts";
import { productImportPage } from "../report/productImportPage.ts";
import { dataFolder } from "../store/dataFolder.ts";
import { indexRowOf } from "../store/indexRowOf.ts";
import { openStore } from "../store/openStore.ts";
import { importShared } from "../store/sharedImport.ts";
import { type ImportReport, refusedCount } from "../store/sharedReport.ts";
import type { Store } from "../store/store.ts";
import { printedJson } from "../terminal/sanitise.ts";
import { type Ending, EXIT, ended, faulty, reached, type Step } from "./ending.ts";
import type { Io } from "./io.ts";
import { newStation } from "./newStation.ts";
import { openForWriting } from "./openForWriting.ts";
import { initialsIn, type ProductSignerOptions } from "./productSigner.ts";
import { stationNow } from "./stationClock.ts";
import { stationFolder } from "./stationFolder.ts";

export interface ProductImportOptions extends ProductSignerOptions {
  readonly dryRun?: boolean;
  readonly json?: boolean;
}

/** `sievewright product import FOLDER`: what a plant shares, into this station's library. */
export async function productImport(shared: string, options: ProductImportOptions, io: Io): Promise<Ending> {
  const by = initialsIn(options, io);
  if (!by.ok) return by.ending;
  const store = await (options.dryRun ? openToLook(options, io) : openToLoad(options, io));
  if (!store.ok) return store.ending;
  const how = {
    by: store.value.session?.initials ?? by.value,
    at: stationNow(store.value.station, io),
    dryRun: options.dryRun ?? false,
  };
  const refusal = how.dryRun ? null : store.value.operators.refusal("publish a product");
  const report = refusal === null ? await importShared(store.value, resolve(shared), how) : refused(refusal);
  await store.value.close();
  if (refusal !== null) return faulty(EXIT.notPermitted, refusal);
  return report.ok ? reported(report.value, options) : faulty(EXIT.notFound, report.reason);
}

/** Nothing is written by looking, so neither a PIN nor the station's lock is asked for. */
async function openToLook({ data }: ProductImportOptions, io: Io): Promise<Step<Store>> {
  const folder = await stationFolder(data, io);
  if (!folder.ok) return folder;
  const store = await openStore(folder.value, { now: io.now, indexRowOf });
  return store.ok ? reached(store.value) : ended(EXIT.ioError, store.reason);
}

const openToLoad = (options: ProductImportOptions, io: Io): Promise<Step<Store>> =>
  openForWriting(dataFolder(options.data, io.env), io, newStation(), options);

function reported(report: ImportReport, { json }: ProductImportOptions): Ending {
  const count = refusedCount(report);
  const told = `${count} of ${report.files.length} files ${count === 1 ? "is" : "are"} refused: the report says why`;
  return {
    code: EXIT.ok,
    out: json ? `${printedJson(report)}\n` : productImportPage(report),
    remark: () => (count === 0 ? null : told),
  };
}
