// Files: what is saved to the teacher's own folder, and what is opened from it.

import { make } from "./elements.mjs";
import { WORDS } from "./speaking.mjs";

const SAID = WORDS.sheets;

const TYPES = {
  csv: "text/csv",
  json: "application/json",
  pdf: "application/pdf",
  yaml: "application/yaml",
  zip: "application/zip",
};

/** Save bytes or text under a name, where the browser saves. */
export function save(name, data) {
  const type = TYPES[name.split(".").pop()] ?? "application/octet-stream";
  const address = URL.createObjectURL(new Blob([data], { type }));
  make("a", { href: address, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** What a file of a pack is called on the page: as it is headed, where `headings` has that. */
export function called(name, headings) {
  if (headings[name]) return headings[name];
  const tier = /^practice-(.*)\.pdf$/.exec(name)?.[1];
  return tier ? SAID.practice(tier) : (SAID.called[name] ?? name);
}

/** A button that opens a file: `opened(file)` is told which. */
export function opener(words, accept, opened, attributes = {}) {
  const input = make("input", {
    type: "file",
    accept,
    class: "unseen",
    ...attributes,
    onchange: () => {
      const [file] = input.files;
      input.value = "";
      if (file) opened(file);
    },
  });
  return make("label", { class: "opener button" }, words, input);
}
