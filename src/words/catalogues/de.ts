import assess from "../../../data/words/de/assess.json" with { type: "json" };
import care from "../../../data/words/de/care.json" with { type: "json" };
import chart from "../../../data/words/de/chart.json" with { type: "json" };
import common from "../../../data/words/de/common.json" with { type: "json" };
import control from "../../../data/words/de/control.json" with { type: "json" };
import entry from "../../../data/words/de/entry.json" with { type: "json" };
import envelope from "../../../data/words/de/envelope.json" with { type: "json" };
import grading from "../../../data/words/de/grading.json" with { type: "json" };
import procedure from "../../../data/words/de/procedure.json" with { type: "json" };
import record from "../../../data/words/de/record.json" with { type: "json" };
import report from "../../../data/words/de/report.json" with { type: "json" };
import run from "../../../data/words/de/run.json" with { type: "json" };
import shift from "../../../data/words/de/shift.json" with { type: "json" };
import store from "../../../data/words/de/store.json" with { type: "json" };
import uncertainty from "../../../data/words/de/uncertainty.json" with { type: "json" };

/** German, room by room. */
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
