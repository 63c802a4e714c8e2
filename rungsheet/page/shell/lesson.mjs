// Lesson: the ready lessons, the ladder and its rungs, the sheet and the text beside it.

import { button, choice, labelled, make } from "./elements.mjs";
import { Ladder } from "./ladder.mjs";
import { picture, redraw } from "./pictures.mjs";
import { written as into } from "./redrawing.mjs";
import { bytesOf, called, opener, saveLesson, takesDropped } from "./saving.mjs";
import { Settings } from "./settings.mjs";
import { Shares } from "./shares.mjs";
import { SpecText } from "./text.mjs";
import { WORDS, language, madeOf, whenSpoken } from "./speaking.mjs";

const SAID = WORDS.lesson;
const PAGES = 3;
const LARGEST = 256 * 1024; // bytes of a lesson's file (specs/yaml_text.py)

let lesson = null;
let parts = null;
let file = null; // which sheet is shown beside the ladder
let choices = 0; // how often one was chosen
// The problems of the text whose rungs and settings are shown: each text read has a list of its own.
let shownOf = null;
let drawnOf = 0; // the opening of the lesson whose sheet is shown

export function open(section, shown) {
  lesson = shown;
  parts ??= build(section);
  lesson.addEventListener("change", changed);
  lesson.addEventListener("read", read);
  if (lesson.text) {
    written();
    sheet();
    if (lesson.isRead && shownOf !== lesson.problems) read();
  }
}

export function close() {
  lesson.removeEventListener("change", changed);
  lesson.removeEventListener("read", read);
}

function build(section) {
  const ladder = new Ladder(lesson);
  const shares = new Shares(lesson);
  const settings = new Settings(lesson);
  const text = new SpecText(lesson);
  const ready = make("ul", { class: "ready" });
  const undo = button(SAID.undo, () => lesson.undo(), { id: "undo", disabled: true });
  const redo = button(SAID.redo, () => lesson.redo(), { id: "redo", disabled: true });
  const title = make("input", { id: "lesson-title", maxlength: 80 });
  title.addEventListener("change", async () => {
    try {
      await lesson.edit("title", title.value);
    } catch (error) {
      lesson.sayWhy(error);
      title.value = lesson.title;
    }
  });
  const lessons = make(
    "details",
    { class: "lessons", open: true },
    make("summary", {}, make("h2", {}, SAID.ready)),
    ready,
    make(
      "div",
      { class: "tools" },
      opener(SAID.open_file, ".yaml,.yml,.txt", openFile, { id: "open-spec" }),
      button(SAID.save, () => saveLesson(lesson), { id: "save-lesson" }),
    ),
  );
  const mistaken = make("p", { class: "why", role: "status", hidden: true }, SAID.mistaken);
  const middle = make(
    "div",
    { class: "middle" },
    make("div", { class: "tools" }, labelled(SAID.title, title, { class: "labelled wide" }), undo, redo),
    mistaken,
    ladder.element,
    shares.element,
    settings.element,
  );
  const files = choice([], "", (name) => {
    file = name;
    choices += 1;
    sheet();
  });
  const pages = make("div", { class: "preview-pages", role: "region", tabindex: 0, "aria-label": SAID.sheet });
  pages.append(document.getElementById("first-sheet"));
  const preview = make("div", { class: "preview" }, labelled(SAID.file, files), pages);
  const toggles = [
    ["sheet", preview],
    ["text", text.element],
  ].map(([name, element]) =>
    button(
      SAID[name],
      ({ target }) => {
        element.hidden = !element.hidden;
        target.setAttribute("aria-pressed", String(!element.hidden));
        if (name === "sheet") sheet();
      },
      { id: `toggle-${name}`, "aria-pressed": String(name === "sheet") },
    ),
  );
  text.element.hidden = true;
  const beside = make(
    "div",
    { class: "beside" },
    make("div", { class: "tools", role: "group", "aria-label": SAID.beside }, ...toggles),
    preview,
    text.element,
  );
  section.append(lessons, middle, beside);
  takesDropped(section, openFile);
  whenSpoken(() => parts && listReady());
  const narrow = matchMedia("(max-width: 80rem)");
  lessons.open = !narrow.matches;
  return { ladder, shares, settings, text, ready, undo, redo, title, files, pages, preview, mistaken, toggles };
}

/** Text, seed or look are others now. */
function changed() {
  written();
  sheet();
}

/** The text as it is now. */
function written() {
  parts.text.show();
  parts.undo.disabled = !lesson.canUndo;
  parts.redo.disabled = !lesson.canRedo;
  listReady();
}

/** The text was read, or what is wrong in it was found. */
async function read() {
  const { problems, spec } = lesson;
  shownOf = null;
  parts.text.complain(problems.length ? problems : (spec?.short ?? []));
  const isWrong = problems.length > 0 || spec === null;
  parts.mistaken.hidden = problems.length === 0;
  parts.ladder.stale(isWrong);
  parts.shares.stale(isWrong);
  parts.settings.stale(isWrong);
  if (spec === null) nothingRead();
  if (isWrong) {
    if (parts.text.element.hidden) parts.toggles[1].click();
    shownOf = problems;
    return;
  }
  into(parts.title, spec.title);
  parts.shares.show(spec);
  try {
    const { result } = await lesson.ask("rungs", {}, { instead: "rungs" });
    if (lesson.spec !== spec) return; // another text has been read
    await parts.ladder.show(result);
    await parts.settings.show();
    shownOf = problems;
  } catch (error) {
    if (!error.problems) lesson.sayWhy(error);
  }
}

/** Nothing is known of the lesson that was opened: what is shown of the one before goes. */
function nothingRead() {
  parts.title.value = "";
  parts.ladder.show([]);
  parts.shares.show(null);
  parts.settings.show();
}

/** The sheet beside the ladder, as it is now. */
async function sheet() {
  if (parts.preview.hidden || !lesson.text) return;
  const chosen = choices;
  const { opening } = lesson;
  try {
    const { result } = await lesson.ask(
      "show",
      { file: file ?? undefined, most: PAGES },
      { instead: "show beside" },
    );
    if (choices !== chosen) return; // another was chosen meanwhile, and asked for
    file = result.name;
    const { names, headings } = result;
    const known = JSON.stringify([names, headings]);
    if (parts.files.dataset.known !== known) {
      parts.files.dataset.known = known;
      const options = names.map((name) => make("option", { value: name }, called(name, headings)));
      parts.files.replaceChildren(...options);
    }
    parts.files.value = file;
    const there = [...parts.pages.querySelectorAll(":scope > .picture")];
    if (there.length !== result.pages.length)
      parts.pages.replaceChildren(...result.pages.map((svg) => picture(svg)));
    else result.pages.forEach((svg, at) => redraw(there[at], svg));
    parts.pages.dataset.drawn = performance.now();
    drawnOf = opening;
  } catch (error) {
    if (error.why === "withdrawn") return;
    if (!error.problems) lesson.sayWhy(error);
    if (opening === lesson.opening && drawnOf !== opening) noSheet();
  }
}

/** The lesson that was opened has no sheet yet: that of the one before goes. */
function noSheet() {
  delete parts.files.dataset.known;
  parts.files.replaceChildren();
  parts.pages.replaceChildren();
}

function listReady() {
  const known = [language(), ...lesson.shipped.map(({ name }) => name)].join();
  if (parts.ready.dataset.known !== known) {
    parts.ready.dataset.known = known;
    const [demo, ...others] = lesson.shipped.map((one) => ({
      ...one,
      title: madeOf(one.text, (text) => titleIn(text) ?? one.name),
    }));
    others.sort((one, other) => String(one.title).localeCompare(String(other.title), language()));
    const listed = demo ? [demo, ...others] : others;
    parts.ready.replaceChildren(
      ...listed.map(({ name, text, title }) =>
        make(
          "li",
          {},
          button(title, () => lesson.open(String(text), `${name}.yaml`), { data: { lesson: name } }),
          make("p", { class: "about quiet" }, madeOf(text, firstSentence)),
        ),
      ),
    );
  }
  for (const one of parts.ready.querySelectorAll("button")) {
    if (`${one.dataset.lesson}.yaml` === lesson.name) one.setAttribute("aria-current", "true");
    else one.removeAttribute("aria-current");
  }
}

/** The title in the text of a spec that ships, for the list. */
function titleIn(text) {
  return /^title: *"?(.*?)"? *$/m.exec(text)?.[1];
}

/** What the comment at the head of a spec says first. */
function firstSentence(text) {
  const comment = /^(?:#.*\n)+/.exec(text)?.[0].replaceAll(/^# ?/gm, "").replaceAll("\n", " ");
  return /^.*?[.?!](?= |$)/.exec(comment ?? "")?.[0] ?? "";
}

async function openFile(chosen) {
  try {
    const bytes = await bytesOf(chosen, LARGEST, SAID.too_large);
    if (bytes.includes(0)) lesson.say(SAID.no_text(chosen.name));
    else lesson.open(new TextDecoder().decode(bytes), chosen.name);
  } catch (error) {
    lesson.sayWhy(error);
  }
}
