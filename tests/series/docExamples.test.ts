import { testExamplesOf } from "../procedure/docExamples.ts";

testExamplesOf("series", 12);
