import { assessTest } from "../../assess/assessTest.ts";
import { isPractice } from "../../record/practice.ts";
import { DISPOSITIONS, type Disposition } from "../../record/test.ts";
import { retestWords } from "../../report/retestWords.ts";
import { signOnWords } from "../../report/signOnWords.ts";
import { phrase, say } from "../../words/say.ts";
import { spoken } from "../../words/spoken.ts";
import { type Line, line, span } from "../line.ts";
import { type App, type Size, type Step, stay, step } from "../place.ts";
import { practiceLine, practiceLines } from "../practice/practice.ts";
import { here, type Room } from "../room.ts";
import { draftTitle } from "../run/runRoom.ts";
import { verdictSpans } from "../words.ts";
import { signAccepted, signerOf, signKeys } from "./signing.ts";

const ACT: Readonly<Record<Disposition, string>> = {
  release: phrase("release"),
  adjust: phrase("adjust"),
  hold: phrase("hold"),
  resample: phrase("resample"),
  rework: phrase("rework"),
  reject: phrase("reject"),
};

function body(app: App, size: Size): readonly Line[] {
  const place = here(app, "sign");
  const { draft } = place.run;
  const signer = signerOf(app, place);
  const known = app.session ?? app.station.operators.find((o) => o.initials === signer);
  const options = DISPOSITIONS.map((d, i): Line => {
    const chosen = d === draft.disposition;
    return [span(chosen ? "  ▸ " : "    ", "strong"), span(`${i + 1}  ${spoken(ACT[d])}`, chosen ? "strong" : "dim")];
  });
  const signature: Line[] =
    place.field === "initials"
      ? [
          [
            span(say`  signed by  `, "strong"),
            span(`${app.session !== null || place.typed === "" ? signer : place.typed}▌`, "field"),
            span(known ? `  ${known.name}` : "", "dim"),
          ],
        ]
      : [];
  const unchecked = app.people.rule === "none" ? [line(`  ${spoken(signOnWords("none"))}`, "dim")] : [];
  const remark = draft.remark === "" ? [] : [line(say`  remark: ${draft.remark}`)];
  const retest = draft.retest ? [line(`  ${spoken(retestWords(draft))}`)] : [];
  const safety = line(say`  a pass here is no certificate of any law or licence`, "dim");
  return [
    ...(isPractice(draft) ? practiceLines(size.columns) : []),
    [],
    line(say`  what becomes of the product?`),
    ...options,
    [],
    ...retest,
    ...remark,
    ...(isPractice(draft) && signature.length > 0 ? [practiceLine()] : []),
    ...signature,
    ...unchecked,
    [],
    safety,
  ];
}

function retyped(app: App, change: (typed: string) => string): Step {
  const place = here(app, "sign");
  if (place.field !== "initials") return stay(app);
  if (app.session !== null) return stay(app, say`${app.session.initials} is signed on; o on the bench changes that`);
  return step({ ...app, message: null, place: { ...place, typed: change(place.typed).slice(0, 8) } });
}

/** Signing: what becomes of the product, and whose word it is. */
export const signRoom: Room = {
  title: (app) => {
    const { draft } = here(app, "sign").run;
    const assessed = assessTest(draft);
    return { left: draftTitle(draft), right: assessed.ok ? verdictSpans(assessed.value.verdict) : [] };
  },
  body,
  keys: (app) => signKeys(here(app, "sign")),
  field: (app) => (here(app, "sign").field === "initials" ? "text" : "none"),
  typed: (app, text) => retyped(app, (old) => old + text),
  erased: (app) => retyped(app, (old) => old.slice(0, -1)),
  scanned: (app, text, ended, at) => {
    if (here(app, "sign").field !== "initials") return stay(app);
    const typing = retyped(app, (old) => old + text.trim());
    return ended && typing.app !== app ? signAccepted(typing.app, at) : typing;
  },
  about: [
    "What becomes of the product, and whose word it is. The verdict proposes; you decide. What is recorded here is",
    "never changed: a later correction is added beside it.",
  ],
};
