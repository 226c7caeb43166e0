import { testExamplesOf } from "../procedure/docExamples.ts";

testExamplesOf("care", 16);
