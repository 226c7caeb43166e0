import { type Assessment, assess, type Notice } from "../assess.ts";
import type { SheetMasses } from "../grading/sheetMasses.ts";
import type { Sheet } from "../record/sheet.ts";
import { massText } from "../report/figures.ts";
import { against } from "./against.ts";
import { drawsFrom } from "./draws.ts";
import { done, type Ending, EXIT, faulty } from "./ending.ts";
import type { EvaluateOptions } from "./evaluateOptions.ts";
import { inputName } from "./inputFile.ts";
import type { Io } from "./io.ts";
import { resultText } from "./resultText.ts";
import { sheetMeans } from "./sheetMeans.ts";
import { READABILITY_G, weighedSheet } from "./weighedSheet.ts";

/** `sievewright evaluate SHEET`: one weighing sheet assessed and printed; the exit code is the verdict. */
export async function evaluate(sheetName: string, options: EvaluateOptions, io: Io): Promise<Ending> {
  const weighed = await weighedSheet(sheetName, io);
  if (!weighed.ok) return weighed.ending;
  const { sheet, masses } = weighed.value;
  const judging = await against(sheet.product, options, io);
  if (!judging.ok) return judging.ending;
  const { product, notices } = judging.value;
  if (options.seed !== undefined && !options.monteCarlo)
    return faulty(EXIT.usage, "--seed is for the draws of --monte-carlo: give both or neither");
  const means = await sheetMeans(sheet, product, options.data, io);
  const conduct = sheet.moisturePct === undefined ? {} : { moisturePct: sheet.moisturePct };
  const assessed = assess({ ...masses, conduct }, product, {
    readabilityG: READABILITY_G,
    balanceUnknown: true,
    ...overrides(options),
    ...(means === null ? {} : { means }),
    ...(options.monteCarlo ? { draws: drawsFrom(options.seed ?? 1) } : {}),
  });
  if (!assessed.ok) return faulty(EXIT.badData, `${inputName(sheetName)}: ${assessed.reason}`);
  const told = [...notices, ...panNotice(masses), ...moistureNotice(sheet), ...assessed.value.notices];
  const assessment: Assessment = { ...assessed.value, notices: told };
  return done(resultText(assessment, { sheet, product }, options, io), exitCode(assessment.verdict));
}

const overrides = ({ basis, interpolate }: EvaluateOptions) => ({
  ...(basis === undefined ? {} : { basis }),
  ...(interpolate === undefined ? {} : { interpolation: interpolate }),
});

function panNotice({ panAssumed, fractions }: SheetMasses): readonly Notice[] {
  const pan = fractions.find((fraction) => fraction.apertureUm === 0);
  if (!panAssumed || !pan) return [];
  const text = `the pan was not weighed: the ${massText(pan.netG)} g missing from the charge count as pan, so no loss is known`;
  return [{ id: "pan-assumed", severity: "warning", text }];
}

function moistureNotice({ moisturePct }: Sheet): readonly Notice[] {
  if (moisturePct === undefined) return [];
  const text = `the sheet gives a moisture of ${moisturePct} %: it changes no percentage, all masses are taken as dry`;
  return [{ id: "moisture-unused", severity: "note", text }];
}

/** An invalid test is told first; a product whose limits could not all be determined has not passed. */
function exitCode({ test, product, limits }: Assessment["verdict"]): number {
  if (test === "invalid") return EXIT.testInvalid;
  if (product === "fail") return EXIT.fail;
  return product === "pass" || limits.length === 0 ? EXIT.ok : EXIT.borderline;
}
