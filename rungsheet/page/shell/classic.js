// A worker that is no module may import scripts, and Pyodide refuses to run in one. It looks by
// trying to: here that fails, as it does in a module. (A worker made from a blob on a page that
// was opened as a file cannot be a module.)
globalThis.importScripts = () => {
  throw new TypeError("nothing is imported here");
};
