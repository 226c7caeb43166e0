import { remembered } from "../../grading/remembered.ts";
import type { Manner } from "../../words/manner.ts";
import { speaking } from "../../words/speaking.ts";

/** Works something out once for each object and each manner of speaking: what words it has depends on both. */
export function rememberedAsSpoken<From extends object, To>(work: (from: From) => To): (from: From) => To {
  const ways = new Map<string, (from: From) => To>();
  return (from) => {
    const { language, decimal, dates }: Manner = speaking();
    const manner = `${language} ${decimal} ${dates}`;
    const way = ways.get(manner) ?? remembered(work);
    ways.set(manner, way);
    return way(from);
  };
}
