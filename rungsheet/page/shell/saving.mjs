// Files: what is saved to the teacher's own folder, and what is opened from it.

import { make } from "./elements.mjs";
import { Problems } from "./engine.mjs";
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

/** Save the lesson's text as a file: what is changed in it is not lost any more. */
export function saveLesson(lesson) {
  save(lesson.name, lesson.text);
  lesson.wasSaved();
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

/** A file that is dropped on a place is opened as one that is chosen is. */
export function takesDropped(host, opened) {
  host.addEventListener("drop", (event) => {
    const [file] = event.dataTransfer.files;
    if (file) opened(file);
  });
}

/** Nowhere does the browser leave the page for a file that is dropped on it. */
export function staysForDropped() {
  for (const name of ["dragover", "drop"])
    document.addEventListener(name, (event) => {
      if (event.dataTransfer?.types.includes("Files")) event.preventDefault();
    });
}

/**
 * The bytes of a file, `largest` at most. Rejects with Problems: what `tooLarge` says of its name,
 * or that it cannot be read.
 */
export async function bytesOf(file, largest, tooLarge) {
  const refused = (what) => new Problems([{ line: null, what, instead: "" }]);
  if (file.size > largest) throw refused(tooLarge(file.name));
  try {
    return new Uint8Array(await file.arrayBuffer());
  } catch {
    throw refused(WORDS.cannot_read(file.name)); // moved, or taken out, since it was chosen
  }
}
