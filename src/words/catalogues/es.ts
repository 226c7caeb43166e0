import assess from "../../../data/words/es/assess.json" with { type: "json" };
import balance from "../../../data/words/es/balance.json" with { type: "json" };
import bench from "../../../data/words/es/bench.json" with { type: "json" };
import big from "../../../data/words/es/big.json" with { type: "json" };
import care from "../../../data/words/es/care.json" with { type: "json" };
import chart from "../../../data/words/es/chart.json" with { type: "json" };
import common from "../../../data/words/es/common.json" with { type: "json" };
import control from "../../../data/words/es/control.json" with { type: "json" };
import correct from "../../../data/words/es/correct.json" with { type: "json" };
import deck from "../../../data/words/es/deck.json" with { type: "json" };
import effects from "../../../data/words/es/effects.json" with { type: "json" };
import entry from "../../../data/words/es/entry.json" with { type: "json" };
import envelope from "../../../data/words/es/envelope.json" with { type: "json" };
import event from "../../../data/words/es/event.json" with { type: "json" };
import grading from "../../../data/words/es/grading.json" with { type: "json" };
import handover from "../../../data/words/es/handover.json" with { type: "json" };
import help from "../../../data/words/es/help.json" with { type: "json" };
import log from "../../../data/words/es/log.json" with { type: "json" };
import lot from "../../../data/words/es/lot.json" with { type: "json" };
import operators from "../../../data/words/es/operators.json" with { type: "json" };
import plan from "../../../data/words/es/plan.json" with { type: "json" };
import practice from "../../../data/words/es/practice.json" with { type: "json" };
import procedure from "../../../data/words/es/procedure.json" with { type: "json" };
import products from "../../../data/words/es/products.json" with { type: "json" };
import reading from "../../../data/words/es/reading.json" with { type: "json" };
import reason from "../../../data/words/es/reason.json" with { type: "json" };
import record from "../../../data/words/es/record.json" with { type: "json" };
import replicates from "../../../data/words/es/replicates.json" with { type: "json" };
import report from "../../../data/words/es/report.json" with { type: "json" };
import result from "../../../data/words/es/result.json" with { type: "json" };
import run from "../../../data/words/es/run.json" with { type: "json" };
import screens from "../../../data/words/es/screens.json" with { type: "json" };
import sent from "../../../data/words/es/sent.json" with { type: "json" };
import shaker from "../../../data/words/es/shaker.json" with { type: "json" };
import shift from "../../../data/words/es/shift.json" with { type: "json" };
import sieves from "../../../data/words/es/sieves.json" with { type: "json" };
import sign from "../../../data/words/es/sign.json" with { type: "json" };
import signOn from "../../../data/words/es/signOn.json" with { type: "json" };
import store from "../../../data/words/es/store.json" with { type: "json" };
import tour from "../../../data/words/es/tour.json" with { type: "json" };
import trend from "../../../data/words/es/trend.json" with { type: "json" };
import uncertainty from "../../../data/words/es/uncertainty.json" with { type: "json" };
import values from "../../../data/words/es/values.json" with { type: "json" };

/** Spanish, room by room. */
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
