import common from "../../../data/words/es/common.json" with { type: "json" };

/** Spanish, room by room. */
const messages: Readonly<Record<string, string>> = { ...common };
export default messages;
