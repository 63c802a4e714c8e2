// The worker in which Python runs. First it is sent the parts of the engine; then each message is
// a job, {id, job, args, bytes}, done in turn. What it sends back is described in engine.mjs.

import "./classic.js";

import { info } from "../node_modules/pyodide/pyodide-lock.json";
import { loadPyodide } from "../node_modules/pyodide/pyodide.mjs";
import createPyodideModule from "../node_modules/pyodide/pyodide.asm.mjs";
import { unpacked } from "./unpacking.mjs";

const INDEX = "memory:///";
const WASM = "pyodide.asm.wasm";
const STANDARD_LIBRARY = "python_stdlib.zip";

let answer = null;
let asBytes = null;

/** From now on nothing can be fetched but what is in the page. */
function closeTheDoor(parts) {
  globalThis.fetch = async (address) => {
    const name = String(address.url ?? address).replace(INDEX, "");
    if (name === WASM) return unpacked(parts[name], "application/wasm");
    if (name === STANDARD_LIBRARY) return unpacked(parts[name]);
    throw new TypeError("nothing is fetched here");
  };
  for (const name of ["XMLHttpRequest", "WebSocket", "WebTransport", "EventSource"])
    globalThis[name] = undefined;
}

/** Write an archive's files (press.py says how it is made). */
function write(FS, folder, data) {
  const end = data.indexOf(10);
  const made = new Set();
  let at = end + 1;
  for (const [path, length] of JSON.parse(new TextDecoder().decode(data.subarray(0, end)))) {
    const target = `${folder}/${path}`;
    const parent = target.slice(0, target.lastIndexOf("/"));
    if (!made.has(parent)) FS.mkdirTree(parent);
    made.add(parent);
    FS.writeFile(target, data.subarray(at, at + length), { canOwn: true });
    at += length;
  }
}

async function start(parts) {
  closeTheDoor(parts);
  const site = unpacked(parts.site).arrayBuffer();
  const python = await loadPyodide({
    indexURL: INDEX,
    stdLibURL: INDEX + STANDARD_LIBRARY,
    lockFileContents: { info, packages: {} },
    packageBaseUrl: INDEX,
    createPyodideModule,
    env: { PYTHONHASHSEED: "0", PYTHONDONTWRITEBYTECODE: "1" },
    fsInit: async (FS, { sitePackages }) => write(FS, sitePackages, new Uint8Array(await site)),
  });
  asBytes = python.toPy;
  answer = python.pyimport("rungsheet.page.bridge").answer;
  postMessage({ ready: true });
}

function work({ id, job, args, bytes }) {
  const tell = (done, of) => postMessage({ id, progress: { done, of } });
  const given = bytes && asBytes(bytes);
  const found = answer(job, JSON.stringify(args), given, tell);
  const [text, blobs] = [found.get(0), found.get(1)];
  const files = blobs.toJs({ create_pyproxies: false });
  blobs.destroy();
  found.destroy();
  postMessage({ id, ...JSON.parse(text), files }, files.map((file) => file.buffer));
}

onmessage = async ({ data }) => {
  try {
    if (data.parts) await start(data.parts);
    else work(data);
  } catch (error) {
    const why = String(error?.message ?? error);
    // An exception of the Python program leaves Python as it was; whatever else happens does not.
    const fault = error?.name === "PythonError" && error.type !== "MemoryError" && answer;
    postMessage({ id: data.id, ...(fault ? { fault: why } : { broken: why }) });
  }
};
