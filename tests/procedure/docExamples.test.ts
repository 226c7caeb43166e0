import { testExamplesOf } from "./docExamples.ts";

testExamplesOf("procedure", 18);
