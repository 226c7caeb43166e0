import assess from "../../../data/words/es/assess.json" with { type: "json" };
import care from "../../../data/words/es/care.json" with { type: "json" };
import chart from "../../../data/words/es/chart.json" with { type: "json" };
import common from "../../../data/words/es/common.json" with { type: "json" };
import control from "../../../data/words/es/control.json" with { type: "json" };
import entry from "../../../data/words/es/entry.json" with { type: "json" };
import envelope from "../../../data/words/es/envelope.json" with { type: "json" };
import grading from "../../../data/words/es/grading.json" with { type: "json" };
import procedure from "../../../data/words/es/procedure.json" with { type: "json" };
import record from "../../../data/words/es/record.json" with { type: "json" };
import report from "../../../data/words/es/report.json" with { type: "json" };
import run from "../../../data/words/es/run.json" with { type: "json" };
import shift from "../../../data/words/es/shift.json" with { type: "json" };
import store from "../../../data/words/es/store.json" with { type: "json" };
import uncertainty from "../../../data/words/es/uncertainty.json" with { type: "json" };

/** Spanish, room by room. */
const messages: Readonly<Record<string, string>> = {
  ...assess,
  ...care,
  ...chart,
  ...common,
  ...control,
  ...entry,
  ...envelope,
  ...grading,
  ...procedure,
  ...record,
  ...report,
  ...run,
  ...shift,
  ...store,
  ...uncertainty,
};
export default messages;
