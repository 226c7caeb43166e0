// Writes shared/schemas/ from the program's own schemas; a test holds the two together.
import { writeFileSync } from "node:fs";
import { build } from "esbuild";

const bundled = await build({
  entryPoints: ["src/record/exchanged.ts"],
  bundle: true,
  write: false,
  platform: "node",
  format: "esm",
});
const { EXCHANGED, jsonSchemaText } = await import(
  `data:text/javascript;base64,${Buffer.from(bundled.outputFiles[0].contents).toString("base64")}`
);
for (const kind of Object.keys(EXCHANGED)) writeFileSync(`shared/schemas/${kind}.schema.json`, jsonSchemaText(kind));
