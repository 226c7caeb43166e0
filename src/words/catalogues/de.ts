import assess from "../../../data/words/de/assess.json" with { type: "json" };
import balance from "../../../data/words/de/balance.json" with { type: "json" };
import bench from "../../../data/words/de/bench.json" with { type: "json" };
import big from "../../../data/words/de/big.json" with { type: "json" };
import care from "../../../data/words/de/care.json" with { type: "json" };
import chart from "../../../data/words/de/chart.json" with { type: "json" };
import common from "../../../data/words/de/common.json" with { type: "json" };
import control from "../../../data/words/de/control.json" with { type: "json" };
import correct from "../../../data/words/de/correct.json" with { type: "json" };
import deck from "../../../data/words/de/deck.json" with { type: "json" };
import effects from "../../../data/words/de/effects.json" with { type: "json" };
import entry from "../../../data/words/de/entry.json" with { type: "json" };
import envelope from "../../../data/words/de/envelope.json" with { type: "json" };
import event from "../../../data/words/de/event.json" with { type: "json" };
import grading from "../../../data/words/de/grading.json" with { type: "json" };
import handover from "../../../data/words/de/handover.json" with { type: "json" };
import help from "../../../data/words/de/help.json" with { type: "json" };
import log from "../../../data/words/de/log.json" with { type: "json" };
import lot from "../../../data/words/de/lot.json" with { type: "json" };
import operators from "../../../data/words/de/operators.json" with { type: "json" };
import plan from "../../../data/words/de/plan.json" with { type: "json" };
import practice from "../../../data/words/de/practice.json" with { type: "json" };
import procedure from "../../../data/words/de/procedure.json" with { type: "json" };
import products from "../../../data/words/de/products.json" with { type: "json" };
import reading from "../../../data/words/de/reading.json" with { type: "json" };
import reason from "../../../data/words/de/reason.json" with { type: "json" };
import record from "../../../data/words/de/record.json" with { type: "json" };
import replicates from "../../../data/words/de/replicates.json" with { type: "json" };
import report from "../../../data/words/de/report.json" with { type: "json" };
import result from "../../../data/words/de/result.json" with { type: "json" };
import run from "../../../data/words/de/run.json" with { type: "json" };
import screens from "../../../data/words/de/screens.json" with { type: "json" };
import sent from "../../../data/words/de/sent.json" with { type: "json" };
import shaker from "../../../data/words/de/shaker.json" with { type: "json" };
import shift from "../../../data/words/de/shift.json" with { type: "json" };
import sieves from "../../../data/words/de/sieves.json" with { type: "json" };
import sign from "../../../data/words/de/sign.json" with { type: "json" };
import signOn from "../../../data/words/de/signOn.json" with { type: "json" };
import store from "../../../data/words/de/store.json" with { type: "json" };
import tour from "../../../data/words/de/tour.json" with { type: "json" };
import trend from "../../../data/words/de/trend.json" with { type: "json" };
import uncertainty from "../../../data/words/de/uncertainty.json" with { type: "json" };
import values from "../../../data/words/de/values.json" with { type: "json" };

/** German, room by room. */
const messages: Readonly<Record<string, string>> = {
  ...assess,
  ...balance,
  ...bench,
  ...big,
  ...care,
  ...chart,
  ...common,
  ...control,
  ...correct,
  ...deck,
  ...effects,
  ...entry,
  ...envelope,
  ...event,
  ...grading,
  ...handover,
  ...help,
  ...log,
  ...lot,
  ...operators,
  ...plan,
  ...practice,
  ...procedure,
  ...products,
  ...reading,
  ...reason,
  ...record,
  ...replicates,
  ...report,
  ...result,
  ...run,
  ...screens,
  ...sent,
  ...shaker,
  ...shift,
  ...sieves,
  ...sign,
  ...signOn,
  ...store,
  ...tour,
  ...trend,
  ...uncertainty,
  ...values,
};
export default messages;
