// Writes the page into the package: the same sources give the same bytes.
import { build } from "esbuild";

await build({
  entryPoints: { desk: "src/main.tsx" },
  outdir: process.argv[2] ?? "../src/hookwright/desk/page",
  bundle: true,
  minify: true,
  format: "esm",
  target: "es2022",
  charset: "utf8",
  legalComments: "none",
  jsx: "automatic",
  jsxImportSource: "preact",
  external: ["*.woff2"],
  logLevel: "info",
});
