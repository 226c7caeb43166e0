import { balanceRoom } from "./balance/balanceRoom.ts";
import { benchRoom } from "./bench/benchRoom.ts";
import { correctRoom } from "./correct/correctRoom.ts";
import { deckRoom } from "./deck/deckRoom.ts";
import { envelopeRoom } from "./envelope/envelopeRoom.ts";
import { eventRoom } from "./event/eventRoom.ts";
import { handoverRoom } from "./handover/handoverRoom.ts";
import { helpRoomWith } from "./help/helpRoom.ts";
import { logRoom } from "./log/logRoom.ts";
import { lotRoom } from "./lot/lotRoom.ts";
import { formRoom } from "./operators/formRoom.ts";
import { operatorsRoom } from "./operators/operatorsRoom.ts";
import type { Place, PlaceName } from "./place.ts";
import { planRoom } from "./plan/planRoom.ts";
import { diffRoom } from "./products/diffRoom.ts";
import { importRoom } from "./products/importRoom.ts";
import { productRoom } from "./products/productRoom.ts";
import { productsRoom } from "./products/productsRoom.ts";
import { publishRoom } from "./products/publishRoom.ts";
import { reasonRoom } from "./reason/reasonRoom.ts";
import { recordRoom } from "./record/recordRoom.ts";
import { replicatesRoom } from "./replicates/replicatesRoom.ts";
import type { Room } from "./room.ts";
import { runRoom } from "./run/runRoom.ts";
import { shakerRoom } from "./shaker/shakerRoom.ts";
import { careFormRoom } from "./sieves/careFormRoom.ts";
import { inspectRoom } from "./sieves/inspectRoom.ts";
import { referenceRoom } from "./sieves/referenceRoom.ts";
import { sieveRoom } from "./sieves/sieveRoom.ts";
import { sievesRoom } from "./sieves/sievesRoom.ts";
import { signRoom } from "./sign/signRoom.ts";
import { signOnRoom } from "./signOn/signOnRoom.ts";
import { trendRoom } from "./trend/trendRoom.ts";
import { valuesRoom } from "./values/valuesRoom.ts";

export const ROOMS: Readonly<Record<PlaceName, Room>> = {
  bench: benchRoom,
  run: runRoom,
  sign: signRoom,
  log: logRoom,
  record: recordRoom,
  correct: correctRoom,
  reason: reasonRoom,
  values: valuesRoom,
  balance: balanceRoom,
  deck: deckRoom,
  shaker: shakerRoom,
  products: productsRoom,
  product: productRoom,
  envelope: envelopeRoom,
  diff: diffRoom,
  publish: publishRoom,
  import: importRoom,
  signOn: signOnRoom,
  operators: operatorsRoom,
  operatorForm: formRoom,
  event: eventRoom,
  handover: handoverRoom,
  lot: lotRoom,
  trend: trendRoom,
  plan: planRoom,
  replicates: replicatesRoom,
  sieves: sievesRoom,
  sieve: sieveRoom,
  careForm: careFormRoom,
  inspect: inspectRoom,
  reference: referenceRoom,
  help: helpRoomWith((place) => roomOf(place)),
};

export function roomOf(place: Place): Room {
  return ROOMS[place.name];
}

/** Every place there is. */
export const PLACE_NAMES = Object.keys(ROOMS) as readonly PlaceName[];
