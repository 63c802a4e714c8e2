// The frame of the page: the title, which pack of the lesson it is, and the row of places.

import { button, choice, make, put, wholeNumber } from "./elements.mjs";
import { PLACES, Places } from "./places.mjs";
import { written } from "./redrawing.mjs";
import { staysForDropped } from "./saving.mjs";
import { LANGUAGES, WORDS, attribute, choose, language, whenSpoken } from "./speaking.mjs";

const GREATEST_SEED = 999_999_999;
const MOST_VERSIONS = 100;

/** Build the frame around a lesson; gives its places. */
export function frame(lesson) {
  put(document.getElementById("terms"), WORDS.frame.terms);
  attribute(document.getElementById("licences"), "aria-label", WORDS.frame.terms);
  const places = new Places(lesson, document.getElementById("main"));
  const title = make("h1", { id: "title" }, WORDS.frame.name);
  const which = make("div", { id: "which" }, row(places), pack(lesson));
  document.getElementById("top").append(make("div", { id: "head" }, title, languages()), which);
  document.body.append(told(lesson, places));
  lesson.addEventListener("read", () => {
    title.toggleAttribute("lang", false);
    if (lesson.title && lesson.language) title.lang = lesson.language;
    put(title, lesson.title || WORDS.frame.name);
    document.title = lesson.title ? `${lesson.title} – ${WORDS.frame.name}` : WORDS.frame.name;
  });
  keys(places);
  staysForDropped();
  globalThis.addEventListener("beforeunload", (event) => {
    if (!lesson.isKept) event.preventDefault();
  });
  lesson.addEventListener("go", ({ detail }) => places.go(detail));
  places.go("lesson");
  return places;
}

/** What the page has to say, at the foot of the window until another place is gone to. */
function told(lesson, places) {
  const said = make("p", { id: "state", role: "status" }, WORDS.engine.starting);
  lesson.addEventListener("said", ({ detail }) => {
    put(said, detail);
  });
  document.addEventListener("refused", ({ detail }) => {
    put(said, detail);
  });
  places.addEventListener("gone", () => {
    if (said.textContent !== String(WORDS.engine.starting)) put(said);
  });
  return said;
}

/** In which language the page speaks: each language says in itself what is chosen here. */
function languages() {
  const own = LANGUAGES.map(({ LANGUAGE: lang, NAME, WORDS: words }) => ({
    option: [lang, NAME, lang],
    label: make("span", { lang }, words.frame.language),
  }));
  const list = choice(own.map(({ option }) => option), language(), choose, { id: "language" });
  whenSpoken(() => {
    list.value = language();
  });
  const labels = own.flatMap(({ label }, at) => (at ? [" / ", label] : [label]));
  return make("div", { id: "languages" }, make("label", { for: "language" }, ...labels), list);
}

/** Which of the lesson's packs: its seed, and how many versions. */
function pack(lesson) {
  const seed = wholeNumber(lesson.seed, 0, GREATEST_SEED, (seed) => lesson.change({ seed }), {
    id: "seed",
  });
  const step = (by) => () => {
    const next = (lesson.seed + by + GREATEST_SEED + 1) % (GREATEST_SEED + 1);
    lesson.change({ seed: next });
  };
  const versions = wholeNumber(
    lesson.versions,
    1,
    MOST_VERSIONS,
    (versions) => lesson.change({ versions }),
    { id: "versions" },
  );
  lesson.addEventListener("change", () => {
    written(seed, lesson.seed);
    written(versions, lesson.versions);
  });
  return make(
    "div",
    { id: "pack", role: "group", "aria-label": WORDS.frame.pack },
    make("label", { for: "seed" }, WORDS.frame.seed),
    button("−", step(-1), { "aria-label": WORDS.frame.seed_before, id: "seed-before" }),
    seed,
    button("+", step(1), { "aria-label": WORDS.frame.seed_after, id: "seed-after" }),
    button(WORDS.frame.another, step(1), { id: "another", title: WORDS.frame.another_says }),
    make("label", { for: "versions" }, WORDS.frame.versions),
    versions,
  );
}

function row(places) {
  const buttons = Object.keys(PLACES).map((name, at) =>
    button(WORDS.places[name], () => places.go(name), {
      data: { place: name },
      "aria-keyshortcuts": `Alt+${at + 1}`,
      title: WORDS.frame.key(at + 1),
    }),
  );
  const shown = () => {
    for (const one of buttons) {
      if (one.dataset.place === places.here) one.setAttribute("aria-current", "page");
      else one.removeAttribute("aria-current");
    }
  };
  places.addEventListener("gone", shown);
  return make("nav", { id: "places", "aria-label": WORDS.frame.places }, ...buttons);
}

function keys(places) {
  document.addEventListener("keydown", (event) => {
    const at = Number(event.code.replace(/^(Digit|Numpad)/, "")) - 1;
    const name = Object.keys(PLACES)[at];
    if (!event.altKey || event.ctrlKey || event.metaKey || !name) return;
    event.preventDefault();
    places.go(name);
    places.host.focus({ preventScroll: true });
  });
}
