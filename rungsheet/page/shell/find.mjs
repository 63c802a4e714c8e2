// Find a sheet: from the code at its foot, or from its PDF, its answers and its lesson.

import { button, labelled, make, problemSaid } from "./elements.mjs";
import { bytesOf, opener, save, takesDropped } from "./saving.mjs";
import { passingOn } from "./passing_on.mjs";
import { FIRST, WORDS } from "./speaking.mjs";

const SAID = WORDS.find;
const ITS_LESSON = "lesson.yaml"; // the file that a PDF carries its lesson as
const LARGEST = 64 * 1024 * 1024; // bytes of a PDF
const LAST = { instead: "find" }; // a search that still waits gives way to a later one

let lesson = null;
let parts = null;
let found = null; // the answer of the job "key"
let name = ""; // the file name of its lesson
let searches = 0; // how many were begun: only the last of them is shown

export function open(section, shown) {
  lesson = shown;
  parts ??= build(section);
}

export function close() {}

function build(host) {
  const code = make("input", {
    type: "text",
    id: "code",
    autocomplete: "off",
    autocapitalize: "characters",
    spellcheck: "false",
    maxlength: 60,
  });
  const form = make(
    "form",
    {
      class: "tools",
      onsubmit: (event) => {
        event.preventDefault();
        byCode(code.value);
      },
    },
    labelled(SAID.code, code),
    make("button", { type: "submit", id: "find-code" }, SAID.find),
    make("span", { class: "quiet" }, SAID.or),
    opener(SAID.open, "application/pdf,.pdf", byFile, { id: "open-sheet" }),
  );
  const says = make("div", { id: "found", "aria-live": "polite" });
  host.append(
    make("div", { class: "asked" }, make("p", {}, SAID.says), form),
    says,
    passingOn(lesson),
  );
  takesDropped(host, byFile);
  return { code, says };
}

/** By a code, of the lesson that is open or of one that came with the page. */
async function byCode(typed) {
  const code = typed.trim();
  if (!code) {
    parts.code.focus();
    return;
  }
  const mine = begun();
  const shipped = lesson.shipped ?? [];
  const lessons = [
    { name: lesson.name, text: lesson.text },
    ...shipped.flatMap(({ name: of, text }) =>
      [...new Set([String(text), text.in(FIRST)])].map((one) => ({ name: `${of}.yaml`, text: one })),
    ),
  ];
  let why = null;
  for (const one of lessons) {
    try {
      const found = await lesson.ask("key", { ...one, ...anySeed, code }, LAST);
      if (mine === searches) told(found, one.name);
      return;
    } catch (error) {
      if (mine !== searches) return;
      if (!error.problems) {
        notDone(error);
        return;
      }
      if (!why || (isOfLesson(why) && !isOfLesson(error.problems))) why = error.problems;
    }
  }
  refused(why);
}

/** A search begins, and takes the place of any other; gives its number. */
function begun() {
  parts.says.replaceChildren(make("p", { class: "quiet" }, SAID.looking)); // it may take a while
  searches += 1;
  return searches;
}

function notDone(error) {
  parts.says.replaceChildren();
  lesson.sayWhy(error);
}

/** Whether something is to be put right in a lesson, which says nothing of the code. */
function isOfLesson(problems) {
  return problems.some(({ file }) => file !== "");
}

/** A code says itself which seed, versions and look it is of. */
const anySeed = {
  seed: undefined,
  versions: undefined,
  large: undefined,
  tint: undefined,
  key_words: undefined,
};

async function byFile(file) {
  const mine = begun();
  const args = { ...anySeed, text: undefined, name: file.name };
  try {
    const bytes = await bytesOf(file, LARGEST, SAID.too_large);
    const found = await lesson.ask("key", args, { ...LAST, bytes });
    if (mine === searches) told(found, ITS_LESSON);
  } catch (error) {
    if (mine !== searches) return;
    if (error.problems) refused(error.problems);
    else notDone(error);
  }
}

function refused(problems) {
  found = null;
  parts.says.replaceChildren(
    make("ul", { class: "problems" }, ...problems.map((one) => make("li", {}, ...problemSaid(one)))),
  );
}

function told({ result, files }, file) {
  found = { ...result, key: files[result.files[0].file], key_name: result.files[0].name };
  name = file;
  const { title, seed, versions, page, listed } = found;
  const of = page && listed.filter((one) => one.name === page[0] && one.version === page[1]);
  const first = of?.length ? of : listed;
  const lists = make("div", { class: "lists" }, ...first.map(answers));
  const more = first.length < listed.length && button(SAID.all(listed.length), () => {
    lists.replaceChildren(...listed.map(answers));
    more.remove();
  });
  parts.says.replaceChildren(
    make("h2", {}, title),
    make("p", { class: "quiet" }, SAID.pack(seed, versions)),
    make(
      "div",
      { class: "tools" },
      button(SAID.save_key, saveKey, { id: "save-key" }),
      button(SAID.open_lesson, openLesson, { id: "open-its-lesson" }),
      more || null,
    ),
    lists,
  );
}

function answers({ heading, replies }) {
  return make(
    "section",
    { class: "answers" },
    make("h3", {}, heading),
    make(
      "dl",
      {},
      ...replies.map(([label, reply]) =>
        make("div", {}, make("dt", {}, label), make("dd", {}, reply)),
      ),
    ),
  );
}

function saveKey() {
  save(found.key_name, found.key);
  lesson.say(SAID.saved(found.key_name));
}

function openLesson() {
  const { text, seed, versions, large, tint, key_words } = found;
  const look = { large: large ?? 0, tint: tint ?? "", key_words: key_words ?? "" };
  lesson.open(text, name, seed, { versions, ...look });
  lesson.go("lesson");
}
