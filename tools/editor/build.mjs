// Bundles the editor of the workbench: `npm ci && npm run build` in this folder, at development time only.
// The built file names the hash of what it was made from, which a test compares.

import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { build } from "esbuild";

const sources = ["bar_editor.js", "package-lock.json"];
const hash = createHash("sha256");
for (const name of sources) hash.update(readFileSync(new URL(name, import.meta.url)));
const banner = `/* Made by tools/editor from ${hash.digest("hex").slice(0, 32)}.
   Holds CodeMirror 6 and what it needs (@codemirror, @marijn/find-cluster-break, @lezer, crelt, style-mod, w3c-keyname):
   MIT licence, copyright Marijn Haverbeke and others; see licences/CodeMirror-MIT.txt. */`;

await build({
  entryPoints: ["bar_editor.js"],
  bundle: true,
  format: "esm",
  minify: true,
  target: "es2022",
  legalComments: "none",
  banner: { js: banner },
  outfile: "../../src/shedbook/workbench/static/vendor/editor.js",
});
