// The language in which the page speaks. Modules take their texts from WORDS here: each is a saying,
// which knows where in the catalogues it stands, and what was put into it. So the page can say all
// that it shows in another language at once, and nothing that is shown is built again for it.

import * as english from "./words.mjs";
import * as german from "./words_german.mjs";

/** The languages' catalogues; the page speaks the first where nothing says otherwise. */
export const LANGUAGES = [english, german];

/** The code of the first of them: of the sheet that the page shows before its engine can draw. */
export const FIRST = english.LANGUAGE;

const KEPT = "language"; // in the session, where another than the first guess was chosen
const texts = new WeakMap(); // the saying that a text of the page was made of
const attributes = new WeakMap(); // and those that an element has as attributes, by their names
const hearers = [];
let spoken = english;

/** A text of the catalogues, with what stands in its gaps. As a string: in the page's language. */
export class Saying {
  /** `into` gives the text in a language, by its code. */
  constructor(into) {
    this.into = into;
  }

  toString() {
    return this.in(spoken.LANGUAGE);
  }

  /** The text in a language by its code; in the page's where the page does not know that one. */
  in(language) {
    return this.into((catalogue(language) ?? spoken).LANGUAGE);
  }
}

/** A text of the page's own, by the way to it in the catalogues, with what stands in its gaps. */
function ownSaying(path, given = null) {
  return new Saying((language) => {
    const text = path.reduce((inside, name) => inside[name], catalogue(language).WORDS);
    return given ? text(...given.map((one) => plain(one, language))) : text;
  });
}

/** Sayings, and texts that are the same in every language, one after another. */
export function joined(parts, between = "") {
  return new Saying((language) => parts.map((one) => plain(one, language)).join(between));
}

/** What is made of a saying's text, in whichever language that is. */
export function madeOf(saying, make) {
  return new Saying((language) => make(saying.in(language)));
}

/**
 * What the engine answered, with its texts in several languages, {in_languages: {code: text}}, as
 * sayings.
 */
export function heard(value) {
  if (Array.isArray(value)) return value.map(heard);
  if (value === null || typeof value !== "object") return value;
  const { in_languages: texts } = value;
  if (texts) return new Saying((language) => texts[language] ?? texts[english.LANGUAGE]);
  return Object.fromEntries(Object.entries(value).map(([name, inside]) => [name, heard(inside)]));
}

/** Whether two texts are the same, in whatever language. */
export function alike(one, other) {
  return plain(one, english.LANGUAGE) === plain(other, english.LANGUAGE);
}

/** What is put into a gap, as text where it is a saying. */
function plain(given, language) {
  if (given instanceof Saying) return given.in(language);
  return Array.isArray(given) ? given.map((one) => plain(one, language)) : given;
}

function catalogue(language) {
  return LANGUAGES.find(({ LANGUAGE }) => LANGUAGE === language);
}

/** A catalogue whose texts are sayings, and whose functions give sayings. */
function sayings(words, path = []) {
  if (typeof words === "string") return ownSaying(path);
  if (typeof words === "function") return (...given) => ownSaying(path, given);
  const inside = Object.entries(words).map(([name, one]) => [name, sayings(one, [...path, name])]);
  return Array.isArray(words) ? inside.map(([, one]) => one) : Object.fromEntries(inside);
}

export const WORDS = sayings(english.WORDS);

/** The code of the language in which the page speaks now. */
export function language() {
  return spoken.LANGUAGE;
}

/** The code of the language that specs call by a name. */
export function languageCalled(name) {
  return LANGUAGES.find(({ IN_SPECS }) => IN_SPECS === name)?.LANGUAGE ?? null;
}

/** A saying as a text of the page, which is said anew when the language changes. */
export function textOf(saying) {
  const text = document.createTextNode(String(saying));
  texts.set(text, saying);
  return text;
}

/** Give an element an attribute; a saying is said anew when the language changes. */
export function attribute(element, name, value) {
  element.setAttribute(name, String(value));
  const its = attributes.get(element);
  if (value instanceof Saying) attributes.set(element, { ...its, [name]: value });
  else if (its) delete its[name];
}

/** Whoever has more to do when the language changes than to say the same in the other. */
export function whenSpoken(hearer) {
  hearers.push(hearer);
}

/** Speak another language from now on, in all that the page shows and will show. */
export function speak(code) {
  spoken = catalogue(code) ?? english;
  document.documentElement.lang = spoken.LANGUAGE;
  const all = document.createTreeWalker(document, NodeFilter.SHOW_ELEMENT | NodeFilter.SHOW_TEXT);
  for (let node = all.nextNode(); node; node = all.nextNode()) {
    if (texts.has(node)) node.data = String(texts.get(node));
    for (const [name, saying] of Object.entries(attributes.get(node) ?? {}))
      if (node.hasAttribute(name)) node.setAttribute(name, String(saying));
  }
  for (const hearer of hearers) hearer();
}

/** Speak as someone has chosen, for as long as this session of the browser lasts. */
export function choose(code) {
  speak(code);
  try {
    if (code === guessed()) sessionStorage.removeItem(KEPT);
    else sessionStorage.setItem(KEPT, code);
  } catch {
    // A browser that keeps nothing: until the page is closed, then.
  }
}

/** The language that was chosen in this session; else the first of the reader's that is known. */
export function begin() {
  let kept = null;
  try {
    kept = sessionStorage.getItem(KEPT);
  } catch {
    // A browser that keeps nothing.
  }
  speak(catalogue(kept) ? kept : guessed());
}

function guessed() {
  const known = (navigator.languages ?? []).map((wanted) =>
    LANGUAGES.find(({ LANGUAGE }) => primary(LANGUAGE) === primary(wanted)),
  );
  return (known.find(Boolean) ?? english).LANGUAGE;
}

function primary(code) {
  return code.toLowerCase().split("-")[0];
}
