// node words.mjs: the texts of the page in each of its languages, as JSON: what the catalogue is of,
// and by their names its texts and functions. Of a function, how many arguments it takes and the
// words that stand in it, as they are written.
// node words.mjs guess: which language the page would speak in browsers of several kinds, given as
// JSON on the standard input.

import { readFileSync } from "node:fs";

const shell = new URL("../../rungsheet/page/shell/", import.meta.url);
const speaking = await import(new URL("speaking.mjs", shell));

/** Every text and function of a catalogue: [name, {text}] or [name, {takes, parts}]. */
function leaves(words, path = []) {
  if (typeof words === "object")
    return Object.entries(words).flatMap(([name, one]) => leaves(one, [...path, name]));
  return [[path.join("."), typeof words === "function" ? written(words) : { text: words }]];
}

function written(made) {
  const quoted = [...String(made).matchAll(/"([^"]*)"|`([^`]*)`/g)];
  const parts = quoted.flatMap(([, text, pattern]) => text ?? pattern.split(/\$\{[^}]*\}/));
  return { takes: made.length, parts: parts.map((part) => part.trim()) };
}

if (process.argv[2] === "guess") {
  const walk = { createTreeWalker: () => ({ nextNode: () => null }), documentElement: {} };
  globalThis.document = walk;
  globalThis.NodeFilter = {};
  const found = JSON.parse(readFileSync(0, "utf8")).map(({ languages, kept, keeps }) => {
    const sessionStorage = {
      getItem: () => {
        if (!keeps) throw new Error("this browser keeps nothing");
        return kept;
      },
    };
    Object.defineProperties(globalThis, {
      navigator: { value: { languages }, configurable: true },
      sessionStorage: { value: sessionStorage, configurable: true },
    });
    speaking.begin();
    return [speaking.language(), document.documentElement.lang];
  });
  console.log(JSON.stringify(found));
} else {
  const all = speaking.LANGUAGES.map(({ LANGUAGE, NAME, IN_SPECS, WORDS }) => ({
    language: LANGUAGE,
    name: NAME,
    in_specs: IN_SPECS,
    words: Object.fromEntries(leaves(WORDS)),
  }));
  console.log(JSON.stringify(all));
}
