// Bundles the whole program into one file: an Ink program starts in about half the time when bundled.
import { readFileSync } from "node:fs";
import { build } from "esbuild";

const { version } = JSON.parse(readFileSync(new URL("package.json", import.meta.url), "utf8"));

/** zod brings its messages in forty languages, a seventh of the bundle; this program words what it refuses by itself. */
const withoutOtherLanguages = {
  name: "without-other-languages",
  setup: ({ onLoad }) =>
    onLoad({ filter: /zod[\\/]v4[\\/]locales[\\/]index\.js$/ }, () => ({ contents: "export {};", loader: "js" })),
};

await build({
  plugins: [withoutOtherLanguages],
  entryPoints: ["src/main.tsx"],
  outfile: "dist/sievewright.mjs",
  bundle: true,
  platform: "node",
  format: "esm",
  target: "node20.19",
  minify: true,
  keepNames: true,
  legalComments: "none",
  define: { "process.env.NODE_ENV": '"production"', SIEVEWRIGHT_VERSION: JSON.stringify(version) },
  // Ink loads this only when DEV=true; bundled, its static import of react-devtools-core would be asked for at every start.
  external: ["*/devtools.js"],
  // Some of the libraries are CommonJS and ask for node's own modules by require().
  banner: {
    js: "#!/usr/bin/env node\nimport{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);",
  },
});
