import care from "../../../data/words/es/care.json" with { type: "json" };
import chart from "../../../data/words/es/chart.json" with { type: "json" };
import common from "../../../data/words/es/common.json" with { type: "json" };
import control from "../../../data/words/es/control.json" with { type: "json" };
import procedure from "../../../data/words/es/procedure.json" with { type: "json" };
import shift from "../../../data/words/es/shift.json" with { type: "json" };

/** Spanish, room by room. */
const messages: Readonly<Record<string, string>> = { ...care, ...chart, ...common, ...control, ...procedure, ...shift };
export default messages;
