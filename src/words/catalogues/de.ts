import common from "../../../data/words/de/common.json" with { type: "json" };

/** German, room by room. */
const messages: Readonly<Record<string, string>> = { ...common };
export default messages;
