// Elements made from data. Text only ever becomes text: nothing here reads markup. A saying, as a
// child or as an attribute, is said anew when the page speaks another language.

import { Saying, WORDS, attribute, joined, textOf } from "./speaking.mjs";

/**
 * An element: `make("p", { class: "note", hidden: true }, "words", another)`.
 *
 * Names that begin with "on" are listeners, `data` and `style` are objects; true sets an
 * attribute without a value, and false, null and undefined leave it out.
 */
export function make(tag, attributes = {}, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === false || value === null || value === undefined) continue;
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else if (name === "data") Object.assign(element.dataset, value);
    else if (name === "style") Object.assign(element.style, value);
    else if (name === "value") element.value = value;
    else attribute(element, name, value === true ? "" : value);
  }
  element.append(...nodes(children));
  return element;
}

/** Put something in the place of all that an element holds: texts, sayings, elements. */
export function put(element, ...children) {
  element.replaceChildren(...nodes(children));
}

function nodes(children) {
  const there = children.flat(Infinity).filter((child) => child !== null && child !== undefined);
  return there.map((child) => (child instanceof Saying ? textOf(child) : child));
}

/** What the engine says: a saying, or else in English, and marked as that for who has it read aloud. */
export function fromEngine(text) {
  return text instanceof Saying ? text : make("span", { lang: "en" }, text);
}

/** What is wrong and what would be right: the engine's text, or a saying of the page's own. */
export function wrongSaid({ what, instead }) {
  return String(instead ?? "") === "" ? what : joined([what, instead], "; ");
}

/** Something to put right, {line, what, instead}, as what is put into an element. */
export function problemSaid({ line, what, instead }) {
  return [line ? WORDS.line(line) : null, fromEngine(wrongSaid({ what, instead }))];
}

/** Several, each on a line of its own; `lines` says whether the lines of the text are named. */
export function problemsSaid(problems, { lines = true } = {}) {
  return problems.flatMap((one, at) => [
    at ? "\n" : null,
    ...problemSaid(lines ? one : { ...one, line: null }),
  ]);
}

/** A button with words on it. */
export function button(words, onclick, attributes = {}) {
  return make("button", { type: "button", onclick, ...attributes }, words);
}

let numbered = 0;

/** A name for an element that another refers to. */
export function freshId(stem) {
  numbered += 1;
  return `${stem}-${numbered}`;
}

/** A control with its label before it; both as one element. */
export function labelled(words, control, attributes = {}) {
  control.id ||= freshId("control");
  return make("span", { class: "labelled", ...attributes }, make("label", { for: control.id }, words), control);
}

/** A choice of a few: `options` are [value, words, language], the language where it is not the page's. */
export function choice(options, chosen, onchange, attributes = {}) {
  const made = options.map(([value, words, lang]) => make("option", { value, lang }, words));
  const select = make("select", { ...attributes, onchange: () => onchange(select.value) }, ...made);
  select.value = chosen;
  return select;
}

/**
 * A whole number from `least` to `most`; told when it is one and another than before. What is not
 * one gives way to the number before, and an event "refused" says what would be taken.
 */
export function wholeNumber(value, least, most, onchange, attributes = {}) {
  let wasRefused = false;
  const say = (detail) => input.dispatchEvent(new CustomEvent("refused", { bubbles: true, detail }));
  const input = make("input", {
    type: "number",
    inputmode: "numeric",
    min: least,
    max: most,
    step: 1,
    ...attributes,
    onchange: () => {
      const typed = Number(input.value);
      const good = input.value !== "" && Number.isInteger(typed) && typed >= least && typed <= most;
      if (!good) say(WORDS.frame.whole_number(least, most));
      else if (wasRefused) say("");
      wasRefused = !good;
      if (good) onchange(typed);
      else input.value = input.defaultValue;
    },
  });
  input.value = input.defaultValue = String(value);
  return input;
}
