// Sheets: every page as it will print, and the ways to save and print it.

import { button, choice, labelled, make, problemSaid, problemsSaid, put, wholeNumber } from "./elements.mjs";
import { picture, redraw, sizeOf } from "./pictures.mjs";
import { called, save, saveLesson } from "./saving.mjs";
import { WORDS, attribute } from "./speaking.mjs";

const SAID = WORDS.sheets;
const FIRST_PAGES = 12;
const CLASS = 30;
const LARGE = [0, 18, 24];
const PAPERS = ["A4", "A5", "A3", "Letter"];
const TINTS = ["", "cream", "peach", "mint", "sky", "lilac", "rose"];
const KEY_WORDS = [
  ...["", "French", "German", "Italian", "Polish", "Portuguese", "Romanian", "Russian"],
  ...["Spanish", "Turkish", "Ukrainian"],
];

let lesson = null;
let host = null;
let parts = null;
let wanted = null; // the file that is shown, by its name
let choices = 0; // how often one was chosen
let shows = 0; // how often one was asked for
const jobs = []; // the long ones that are asked, in turn: {name, told, stopping}
let headings = {}; // what pupils see over files, where that is not their usual names
let drawnOf = 0; // the opening of the lesson that it is of
let all = false; // all of its pages, or the first
const printed = new CSSStyleSheet();

export function open(section, shown) {
  host = section;
  lesson = shown;
  parts ??= build();
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, printed];
  lesson.addEventListener("change", changed);
  lesson.addEventListener("read", paperRead);
  changed();
  paperRead();
}

export function close() {
  lesson.removeEventListener("change", changed);
  lesson.removeEventListener("read", paperRead);
  document.adoptedStyleSheets = document.adoptedStyleSheets.filter((sheet) => sheet !== printed);
}

function build() {
  const files = make("nav", { class: "files", "aria-label": SAID.files });
  const pages = make("div", { class: "pages" });
  const large = choice(
    LARGE.map((points) => [points, points ? SAID.points(points) : SAID.as_in_lesson]),
    lesson.large,
    (points) => lesson.change({ large: Number(points) }),
  );
  const tint = choice(
    TINTS.map((name) => [name, SAID.tints[name] ?? SAID.as_in_lesson]),
    lesson.tint,
    (name) => lesson.change({ tint: name }),
  );
  const keyWords = choice(
    KEY_WORDS.map((name) => [name, SAID.languages[name] ?? SAID.as_in_lesson]),
    lesson.key_words,
    (name) => lesson.change({ key_words: name }),
  );
  const paper = choice(
    PAPERS.map((name) => [name, name]),
    "A4",
    (name) => change("page", "paper", name),
  );
  const look = make(
    "div",
    { role: "group", class: "tools", "aria-label": SAID.look },
    labelled(SAID.large, large),
    labelled(SAID.tint, tint),
    labelled(SAID.key_words, keyWords),
    labelled(SAID.paper, paper),
  );
  const copies = wholeNumber(CLASS, 2, 100, () => {}, { id: "class-set" });
  const saving = make(
    "div",
    { role: "group", class: "tools", "aria-label": SAID.save },
    button(SAID.save_pdf, savePdf, { id: "save-pdf" }),
    button(SAID.save_zip, () => saveZip(lesson.versions), { id: "save-zip" }),
    button(SAID.save_spec, () => saveLesson(lesson), { id: "save-spec" }),
    button(SAID.print, print, { id: "print" }),
  );
  const set = make(
    "div",
    { role: "group", class: "tools", "aria-label": SAID.class_set },
    labelled(SAID.class_set_of, copies),
    button(SAID.class_set_save, () => saveZip(Number(copies.value)), {
      id: "save-class-set",
      title: SAID.class_set_says,
    }),
  );
  const bar = make("progress", { max: 1, value: 0, "aria-label": SAID.working("") });
  const done = make("span", { class: "quiet" });
  const stop = button(SAID.stop, () => jobs[0]?.stopping.abort(), { id: "stop" });
  const working = make("div", { class: "tools working", hidden: true }, bar, done, stop);
  const questions = make("ul", { class: "questions" });
  const why = make("p", { class: "why", role: "alert" });
  pages.addEventListener("click", pointed);
  const asking = make(
    "section",
    { class: "asking", "aria-label": SAID.questions, hidden: true },
    make("h2", {}, SAID.questions),
    make("p", { class: "quiet" }, SAID.questions_say),
    why,
    questions,
  );
  host.append(
    make("div", { class: "aside" }, files, asking),
    make("div", { class: "sheet" }, make("div", { class: "bar" }, look, saving, set, working), pages),
  );
  return { files, pages, large, tint, keyWords, paper, bar, done, working, asking, questions, why };
}

/** Another text, seed, look or number of versions: the same file of the pack as it is now. */
function changed() {
  parts.large.value = lesson.large;
  parts.tint.value = lesson.tint;
  parts.keyWords.value = lesson.key_words;
  all = false;
  show();
}

function paperRead() {
  parts.paper.value = lesson.spec?.pages.paper ?? PAPERS[0];
}

/** Show the wanted file as it is now; gives whether all of its pages stand there then. */
async function show() {
  shows += 1;
  const mine = shows;
  if (!lesson.text) {
    parts.pages.replaceChildren(make("p", { class: "quiet" }, SAID.waiting));
    return false;
  }
  const most = all ? 1000 : FIRST_PAGES;
  const chosen = choices;
  const { opening } = lesson;
  try {
    const { result } = await lesson.ask(
      "show",
      { file: wanted ?? undefined, most },
      { instead: "show the sheet" },
    );
    if (choices !== chosen) return false; // another was chosen meanwhile, and asked for
    drawnOf = opening;
    wanted = result.name;
    listed(result);
    drawn(result);
    asked(result);
    return mine === shows && result.pages.length === result.of;
  } catch (error) {
    if (error.why === "withdrawn") return false;
    if (error.problems) refused(error.problems);
    else lesson.sayWhy(error);
    if (!error.problems && drawnOf !== opening && opening === lesson.opening) refused([]);
    return false;
  }
}

function listed(result) {
  const { names } = result;
  const known = [...parts.files.children].map((one) => one.dataset.file);
  if (known.join() !== names.join() || JSON.stringify(headings) !== JSON.stringify(result.headings)) {
    headings = result.headings;
    const made = names.map((name) =>
      button(called(name, headings), () => choose(name), { data: { file: name } }),
    );
    parts.files.replaceChildren(...made);
  }
  for (const one of parts.files.children) {
    if (one.dataset.file === wanted) one.setAttribute("aria-current", "true");
    else one.removeAttribute("aria-current");
  }
}

function choose(name) {
  wanted = name;
  choices += 1;
  all = false;
  show();
}

function drawn({ name, pages, of }) {
  const there = [...parts.pages.querySelectorAll(":scope > .picture")];
  if (there.length !== pages.length || parts.pages.dataset.file !== name)
    parts.pages.replaceChildren(...pages.map((svg) => picture(svg)));
  else pages.forEach((svg, at) => redraw(there[at], svg));
  parts.pages.dataset.file = name;
  parts.pages.querySelector(":scope > .more")?.remove();
  if (of > pages.length) {
    const more = () => {
      all = true;
      show();
    };
    parts.pages.append(button(SAID.more(of), more, { class: "more" }));
  }
  const { width, height } = sizeOf(parts.pages.firstChild);
  parts.pages.classList.toggle("slides", width > height);
  printed.replaceSync(`
    @page { size: ${width}mm ${height}mm; margin: 0; }
    @media print { .pages .picture { width: ${width}mm; height: ${height}mm; } }
  `);
}

/** The questions that are shown, each with what can be done to it. */
function asked({ questions, role }) {
  const focused = document.activeElement?.dataset?.key;
  const some = ["starter", "practice", "examples", "exit", "homework"].includes(role) ? questions : [];
  parts.asking.hidden = some.length === 0;
  put(parts.why);
  const made = some.map(({ section, label, text, kept }) => {
    const name = SAID.question(label, text);
    const act = (words, job, ...more) =>
      button(words, () => change(job, ...more), {
        "aria-label": SAID.of_question(words, name),
        data: { key: `${section} ${label} ${job === "another" ? job : "keep"}` },
      });
    return make(
      "li",
      { data: { section, label }, class: kept ? "kept" : "" },
      make("span", { class: "question-text" }, make("span", { lang: lesson.language }, name), kept ? SAID.kept : null),
      act(SAID.other, "another", lesson.seed, lesson.versions, section, label),
      kept
        ? act(SAID.let_change, "let change", section, label)
        : act(SAID.keep, "keep", lesson.seed, lesson.versions, section, label),
    );
  });
  parts.questions.replaceChildren(...made);
  if (focused) parts.questions.querySelector(`[data-key="${CSS.escape(focused)}"]`)?.focus();
}

async function change(job, ...to) {
  try {
    await lesson.edit(job, ...to);
  } catch (error) {
    if (error.problems && !parts.asking.hidden) put(parts.why, problemsSaid(error.problems));
    else lesson.sayWhy(error);
    paperRead(); // as it is, not as it was chosen
  }
}

/** A question that was pointed at on its page: its entry in the list is gone to. */
function pointed(event) {
  const question = event.composedPath().find((one) => one.classList?.contains("question"));
  if (!question || parts.asking.hidden) return;
  const all = [...parts.pages.querySelectorAll(":scope > .picture")].flatMap((page) => [
    ...page.shadowRoot.querySelectorAll(".question"),
  ]);
  parts.questions.children[all.indexOf(question)]?.querySelector("button").focus();
}

function refused(problems) {
  parts.asking.hidden = true;
  parts.files.replaceChildren();
  parts.pages.dataset.file = "";
  parts.pages.replaceChildren(
    make("h2", {}, SAID.cannot),
    make("ul", { class: "problems" }, ...problems.map((one) => make("li", {}, ...problemSaid(one)))),
    button(SAID.to_lesson, () => lesson.go("lesson")),
  );
}

async function savePdf() {
  if (wanted === null) await show(); // the first file's name comes with it
  if (wanted === null) return;
  const given = await working(called(wanted, headings), "draw", { file: wanted });
  if (given) saved(given.result, given.files);
}

async function saveZip(versions) {
  const given = await working(SAID.pack, "zip", { versions }, 600);
  if (given) saved(given.result, given.files);
}

function saved(file, files) {
  save(file.name, files[file.file]);
  lesson.say(SAID.saved(file.name));
}

/** The answer of a long job, with a bar that shows how far it is, and a way to stop it. */
async function working(name, job, args, seconds = 120) {
  const mine = { name, told: null, stopping: new AbortController() };
  const progress = (told) => {
    mine.told = told;
    showFirstJob();
  };
  jobs.push(mine);
  showFirstJob();
  try {
    return await lesson.ask(job, args, { progress, seconds, signal: mine.stopping.signal });
  } catch (error) {
    lesson.sayWhy(error);
    return null;
  } finally {
    jobs.splice(jobs.indexOf(mine), 1);
    showFirstJob();
  }
}

/** How far the first of the long jobs is, which Stop is for; the others wait for it. */
function showFirstJob() {
  const { bar, done, working: shown } = parts;
  const [first] = jobs;
  shown.hidden = !first;
  if (!first) return;
  const { name, told } = first;
  attribute(bar, "aria-label", SAID.working(name));
  put(done, told ? SAID.done(told.done, told.of) : SAID.working(name));
  if (told) Object.assign(bar, { max: told.of, value: told.done });
  else bar.removeAttribute("value");
}

/**
 * Print the file that is shown, as soon as all of its pages are: the browser prints the page's
 * print styles. Nothing is printed where they do not come, or another is asked for meanwhile.
 */
async function print() {
  all = true;
  if (!(await show())) return;
  lesson.say(SAID.printing);
  setTimeout(() => globalThis.print());
}
