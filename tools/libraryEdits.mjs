// What the bundle changes in the libraries it takes in, so that the program starts faster. Each edit says what it expects to
// find: a library that came in another version stops the build instead of being bundled half edited.
import { readFileSync } from "node:fs";

/** zod brings its messages in forty languages, a seventh of the bundle; this program words what it refuses by itself. */
const withoutOtherLanguages = () => "export {};";

/** Ink waits at its top level for what only a developer of Ink needs; a script compiled ahead can't wait there. */
const withoutDeveloperTools = (text) =>
  edited(text, [
    ["await import('./devtools.js')", "undefined"],
    ["await loadPackageJson()", "{}"],
  ]);

/** The layout engine is made at once instead of being waited for at the top level. */
const layoutAtOnce = (text) =>
  edited(text, [
    [
      "const Yoga = wrapAssembly(await loadYoga());",
      `const engine = {
         instantiateWasm(imports, done) {
           const made = new WebAssembly.Instance(new WebAssembly.Module(Buffer.from(loadYoga.wasm, "base64")), imports);
           done(made);
           return made.exports;
         },
       };
       loadYoga(engine);
       const Yoga = wrapAssembly(engine);`,
    ],
  ]);

/** Hands out the machine code of the layout engine, which it keeps as text. */
const layoutCode = (text) => {
  const [whole, code] = /"data:application\/octet-stream;base64,([A-Za-z0-9+/=]+)"/.exec(text) ?? [];
  return edited(text, [
    ["import.meta.url", '""'],
    [whole, '""'],
    ["export default loadYoga;", `loadYoga.wasm = "${code}";export default loadYoga;`],
  ]);
};

/** Patterns over all of Unicode, which take a fiftieth of a second to make, are made when the first text needs them. */
const patternsLate = (text, path) => {
  if (path.includes("wrap-ansi")) return text; // an older one, without such patterns
  return edited(text, [
    ["const visibleCharacterRegex = /[^", "const visibleCharacterRegex = late(() => /[^"],
    ["\\p{Surrogate}]/v;", "\\p{Surrogate}]/v);"],
    ["const spacingMarkRegex = /\\p{Spacing_Mark}/v;", "const spacingMarkRegex = late(() => /\\p{Spacing_Mark}/v);"],
    ["const rgiEmojiRegex = /^\\p{RGI_Emoji}$/v;", "const rgiEmojiRegex = late(() => /^\\p{RGI_Emoji}$/v);"],
    [
      "const segmenter = new Intl.Segmenter();",
      `const segmenter = new Intl.Segmenter();
       function late(make) {
         let made;
         const pattern = () => (made ??= make());
         return { test: (text) => pattern().test(text), [Symbol.search]: (text) => text.search(pattern()) };
       }`,
    ],
  ]);
};

function edited(text, edits) {
  return edits.reduce((left, [from, to]) => {
    if (from === undefined || !left.includes(from)) throw new Error(`not as expected, nothing reads: ${from}`);
    return left.replace(from, () => to);
  }, text);
}

const EDITS = [
  [/zod[\\/]v4[\\/]locales[\\/]index\.js$/, withoutOtherLanguages],
  [/ink[\\/]build[\\/]reconciler\.js$/, withoutDeveloperTools],
  [/yoga-layout[\\/]dist[\\/]src[\\/]index\.js$/, layoutAtOnce],
  [/yoga-wasm-base64-esm\.js$/, layoutCode],
  [/[\\/]string-width[\\/]index\.js$/, patternsLate],
];

/** A plugin for esbuild; refuses to end a build in which an edit found nothing to do. */
export const libraryEdits = {
  name: "library-edits",
  setup({ onLoad, onEnd }) {
    const open = new Set(EDITS.map(([filter]) => filter));
    for (const [filter, edit] of EDITS)
      onLoad({ filter }, ({ path }) => {
        open.delete(filter);
        return { contents: edit(readFileSync(path, "utf8"), path), loader: "js" };
      });
    onEnd(() => (open.size === 0 ? {} : { errors: [{ text: `no library matches ${[...open].join(", ")}` }] }));
  },
};
