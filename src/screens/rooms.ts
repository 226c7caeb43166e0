import { balanceRoom } from "./balance/balanceRoom.ts";
import { benchRoom } from "./bench/benchRoom.ts";
import { deckRoom } from "./deck/deckRoom.ts";
import { helpRoomWith } from "./help/helpRoom.ts";
import { logRoom } from "./log/logRoom.ts";
import type { Place, PlaceName } from "./place.ts";
import { productRoom } from "./products/productRoom.ts";
import { productsRoom } from "./products/productsRoom.ts";
import { recordRoom } from "./record/recordRoom.ts";
import type { Room } from "./room.ts";
import { runRoom } from "./run/runRoom.ts";
import { shakerRoom } from "./shaker/shakerRoom.ts";
import { signRoom } from "./sign/signRoom.ts";
import { valuesRoom } from "./values/valuesRoom.ts";

const ROOMS: Readonly<Record<PlaceName, Room>> = {
  bench: benchRoom,
  run: runRoom,
  sign: signRoom,
  log: logRoom,
  record: recordRoom,
  values: valuesRoom,
  balance: balanceRoom,
  deck: deckRoom,
  shaker: shakerRoom,
  products: productsRoom,
  product: productRoom,
  help: helpRoomWith((place) => roomOf(place)),
};

export function roomOf(place: Place): Room {
  return ROOMS[place.name];
}
