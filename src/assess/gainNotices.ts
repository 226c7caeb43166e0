import type { Grading } from "../grading/grading.ts";
import { netMassG, sumG } from "../grading/netMass.ts";
import type { Notice } from "./assessment.ts";

/**
 * On the charge as basis, sieves that hold more than the charge would leave less than nothing to pass: it is shown as 0,
 * and said so, for a held figure must not look like a weighed one.
 */
export function gainNotices({ basis, rows, totalG }: Grading): Notice[] {
  const heldG = sumG(rows.filter((row) => row.apertureUm > 0).map((row) => row.netG));
  if (basis !== "charge" || heldG <= totalG) return [];
  const text = `the sieves alone hold ${netMassG(heldG, totalG)} g more than the charge: passing % that would be below 0 is shown as 0`;
  return [{ id: "passing-held-at-0", severity: "warning", text }];
}
