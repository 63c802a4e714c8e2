// node press.mjs GIVEN MADE: bundles the page's modules, then has the page's own Python run
// press.py over the folder GIVEN; the folder MADE gets what bind.py puts into the page.

import { readFileSync } from "node:fs";
import { copyFile, mkdir, writeFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

import { build } from "esbuild";
import { loadPyodide } from "pyodide";

const here = dirname(fileURLToPath(import.meta.url));
const runtime = join(here, "node_modules", "pyodide");
const [given, made] = process.argv.slice(2);

const bundled = (entry, format) =>
  build({
    entryPoints: [join(here, "shell", entry)],
    absWorkingDir: here,
    bundle: true,
    charset: "utf8",
    define: format === "iife" ? { "import.meta.url": '"blob:worker"' } : {},
    external: ["node:*", "ws"],
    loader: { ".ttf": "dataurl" },
    format,
    legalComments: "inline",
    logLevel: "error",
    minifySyntax: false,
    target: ["chrome110", "firefox115", "safari16.4"],
    write: false,
  }).then((result) => result.outputFiles[0].contents);

await mkdir(join(given), { recursive: true });
await writeFile(join(given, "worker.js"), await bundled("worker.js", "iife"));
for (const name of ["pyodide.asm.wasm", "python_stdlib.zip"])
  await copyFile(join(runtime, name), join(given, name));
await writeFile(join(made, "page.js"), await bundled("page.mjs", "iife"));
await writeFile(join(made, "page.css"), await bundled("page.css", undefined));

const python = await loadPyodide({ env: { PYTHONHASHSEED: "0" } });
for (const [place, folder] of [["/given", given], ["/made", made]]) {
  python.FS.mkdirTree(place);
  python.FS.mount(python.FS.filesystems.NODEFS, { root: folder }, place);
}
python.runPython(readFileSync(join(here, "press.py"), "utf8"), { filename: "press.py" });
python.globals.get("press")("/given", "/made");
