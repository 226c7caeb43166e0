import type { Change } from "../../envelope/revisions/change.ts";
import { say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";

/** What stands in quotes a person wrote. */
const stateShown = (state: string): string => (state.startsWith('"') ? state : spoken(state));

/** One change of a revision in the language of the screens. */
export const changeShown = ({ words, turn }: Change): string =>
  turn === undefined ? spoken(words) : say`${spoken(turn.label)} ${stateShown(turn.from)} -> ${stateShown(turn.to)}`;
