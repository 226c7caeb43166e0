import type { Assessment } from "../assess.ts";
import type { Product } from "../record/product.ts";
import type { Sheet } from "../record/sheet.ts";
import { resultPage } from "../report/page.ts";
import { pageCurve } from "../report/pageCurve.ts";
import { resultCsv } from "../report/resultCsv.ts";
import { resultJson } from "../report/resultJson.ts";
import type { EvaluateOptions } from "./evaluateOptions.ts";
import type { Io } from "./io.ts";
import { textLook, textPage } from "./textPage.ts";

const DECIMALS = 2;

interface Whose {
  readonly sheet: Sheet;
  readonly product: Product | null;
}

/** The result in the form asked for: JSON, CSV or a page of text as wide as the terminal. */
export function resultText(assessment: Assessment, whose: Whose, options: EvaluateOptions, io: Io): string {
  const { lot = "", line = "" } = whose.sheet;
  if (options.json) return resultJson(assessment);
  if (options.csv) return resultCsv(assessment, { product: codeOf(whose), lot, line });
  const look = textLook(io);
  const { width, ascii } = look;
  const printed = `evaluated ${io.now().slice(0, 16).replace("T", " ")} by Sievewright ${io.version}`;
  const curve = pageCurve(assessment, whose.product, width, ascii);
  const page = resultPage(
    assessment,
    { product: whose.product, lot, line, printed, decimals: DECIMALS },
    { width, curve },
  );
  return textPage(page, look);
}

const codeOf = ({ product, sheet }: Whose): string => product?.code ?? sheet.product ?? "";
