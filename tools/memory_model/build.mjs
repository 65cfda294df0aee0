// Bundles the memory model of the practice page: `npm ci && npm run build` in this folder, at development time only.
// The built file names the hash of what it was made from, which a test compares.

import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { build } from "esbuild";

const sources = ["memory_model.js", "package-lock.json"];
const hash = createHash("sha256");
for (const name of sources) hash.update(readFileSync(new URL(name, import.meta.url)));
const licence = readFileSync(new URL("node_modules/ts-fsrs/LICENSE", import.meta.url), "utf-8").trim();
const banner = `/* Made by tools/memory_model from ${hash.digest("hex").slice(0, 32)}.
   Holds the memory model of ts-fsrs, under this licence:

${licence} */`;

await build({
  entryPoints: ["memory_model.js"],
  bundle: true,
  format: "iife",
  minify: true,
  target: "es2020",
  legalComments: "none",
  banner: { js: banner },
  outfile: "../../src/shedbook/book/practice/static/memory_model.js",
});
