import { Low } from "lowdb";
import { type CareLedger, emptyLedger } from "../care/ledger/ledger.ts";
import { type CareLedgerFile, CareLedgerSchema } from "../record/careLedger.ts";
import type { Kind } from "../record/migrate.ts";
import { itemName } from "../record/register.ts";
import { type Cabinet, readFrom, report } from "./cabinet.ts";
import { diskTrouble } from "./diskWords.ts";
import { durableFile } from "./durableFile.ts";
import { careLedgerPath } from "./layout.ts";
import { summedCodec } from "./summedCodec.ts";

/** To be raised whenever the same log gives another ledger: what was drawn before is then drawn again. */
export const CARE_DRAWN = 5;

const kind: Kind<CareLedgerFile> = { name: "careLedger", schema: CareLedgerSchema, lifts: [] };
const codec = summedCodec(kind, 0);

type Content = Omit<CareLedgerFile, "sum">;

const by =
  <T>(key: (one: T) => string) =>
  (a: T, b: T): number =>
    key(a) < key(b) ? -1 : 1;

/** What the file says of a ledger; always in the same order. */
export const saidOf = ({ head, lives, notes, register, checks, sets, amendments, short }: CareLedger): Content => ({
  schema: "sievewright.careLedger/1",
  drawnBy: CARE_DRAWN,
  head,
  lives: [...lives.values()].sort(by(({ serial }) => serial)),
  notes: [...notes.values()].sort((a, b) => a.number - b.number),
  register: [...register.values()].sort(by(({ item }) => itemName(item))),
  checks: [...checks.values()].sort(by(({ check }) => check.balance)),
  sets: [...sets].map(([product, set]) => ({ product, set })).sort(by(({ product }) => product)),
  ...(short === null ? {} : { short: [...short].sort() }),
  ...(amendments.size > 0 ? { amendments: [...amendments.values()].sort((a, b) => a.number - b.number) } : {}),
});

function ledgerOf({ head, lives, notes, register, checks, sets, amendments = [], short }: Content): CareLedger {
  const ledger = emptyLedger();
  ledger.head = head;
  for (const life of lives) ledger.lives.set(life.serial, life);
  for (const note of notes) ledger.notes.set(note.number, note);
  for (const row of register) ledger.register.set(itemName(row.item), row);
  for (const checked of checks) ledger.checks.set(checked.check.balance, checked);
  for (const { product, set } of sets) ledger.sets.set(product, set);
  if (short !== undefined) ledger.short = new Set(short);
  for (const ref of amendments) ledger.amendments.set(ref.number, ref);
  return ledger;
}

/** When the file was written, in ms; null when there is none. */
export const careLedgerAtMs = ({ folder, disk }: Cabinet): Promise<number | null> =>
  disk.modifiedAtMs(careLedgerPath(folder));

/** The ledger as it was written; null when there is none, when it was tampered with, or drawn by other rules. */
export async function readCareLedger(cabinet: Cabinet): Promise<CareLedger | null> {
  const checked = codec.checked();
  const found = await readFrom(cabinet, careLedgerPath(cabinet.folder), checked);
  const fits = found.is === "read" && checked.isAsWritten() && found.content.drawnBy === CARE_DRAWN;
  return fits ? ledgerOf(found.content) : null;
}

/** No record, as the index is none: that it could not be written is told, and it is drawn on or again when next needed. */
export async function writeCareLedger(cabinet: Cabinet, ledger: CareLedger): Promise<void> {
  try {
    await new Low(durableFile(careLedgerPath(cabinet.folder), codec, cabinet.disk), saidOf(ledger)).write();
  } catch (fault) {
    report(cabinet, diskTrouble(fault, "index/care.json is behind and is drawn again later"));
  }
}
