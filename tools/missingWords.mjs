// What a catalogue lacks: node tools/missingWords.mjs LANGUAGE [FOLDER OF src, e.g. screens/trend]
import { readdirSync, readFileSync } from "node:fs";
import { catalogueOf, wordsInCode } from "./wordsInCode.mjs";

const [language = "de", part = ""] = process.argv.slice(2);
const folder = `data/words/${language}`;
const known = new Set(
  readdirSync(folder).flatMap((file) => Object.keys(JSON.parse(readFileSync(`${folder}/${file}`, "utf8")))),
);
const words = wordsInCode().filter(({ file }) => file.startsWith(`src/${part}`));

for (const { kind, file, line, message } of words)
  if (kind !== "message" && kind !== "name")
    process.stdout.write(`${kind}: ${file}:${line}: ${JSON.stringify(message)}\n`);
const missing = new Map(
  words.filter((w) => w.kind === "message" && !known.has(w.message)).map((w) => [w.message, catalogueOf(w.file)]),
);
for (const name of new Set(missing.values())) {
  const messages = [...missing].filter(([, of]) => of === name).map(([message]) => `  ${JSON.stringify(message)}: "",`);
  process.stdout.write(`\n${folder}/${name}.json lacks ${messages.length}:\n${messages.join("\n")}\n`);
}
