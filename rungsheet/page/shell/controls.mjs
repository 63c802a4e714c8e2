// Controls of a rung's words, made from what the engine says of each (desk/choices.py).
//
// A choice stands for the whole value of its word, so a control knows nothing of what it changes.

import { button, choice, freshId, make, put } from "./elements.mjs";
import { inSteps } from "./redrawing.mjs";
import { WORDS, alike } from "./speaking.mjs";

const SAID = WORDS.lesson;
const FEW = 6;

/** Milliseconds between a key and the step in a list that it makes, and after the last step. */
const [STEP, PAUSE] = [100, 600];

/**
 * The control of what `label` says, as an element; `chosen(value)` is told what it shall be, null for
 * nothing. `key` names its fields, so that one can be found again in a control that took its place.
 */
export function controlOf(label, control, chosen, key) {
  const whole = alike(label, control.label) ? label : SAID.control(label, control.label);
  const named = { "aria-label": whole, data: { key } };
  if (control.kind === "parts") {
    const inside = control.parts.map((part, at) => {
      const own = controlOf(label, part, chosen, `${key}/${at}`);
      if (alike(part.label, label) || alike(part.label, control.label)) return own;
      return make("span", { class: "part" }, make("span", { class: "part-label" }, part.label), own);
    });
    return make("span", { class: "parts" }, ...inside);
  }
  if (control.kind === "some") return some(control, chosen, named);
  if (control.kind === "typed") return typed(control, chosen, named);
  if (control.kind === "written") return written(control, chosen, named);
  const options = control.choices.map((one, at) => [at, one.says]);
  const at = control.choices.findIndex((one) => one.chosen);
  return unhurried(options, at, (picked) => chosen(control.choices[picked].value), named);
}

/** A choice that is made when arrows and letters have stopped to go through the list by key. */
function unhurried(options, at, chosen, attributes) {
  let [stepped, waiting, picked] = [-Infinity, 0, null];
  const now = () => {
    clearTimeout(waiting);
    if (picked !== null) chosen(picked);
    picked = null;
  };
  const soon = (value) => {
    clearTimeout(waiting);
    picked = value;
    waiting = setTimeout(now, PAUSE);
  };
  const list = choice(
    options,
    at,
    (value) => {
      soon(value);
      if (performance.now() - stepped > STEP) now();
    },
    attributes,
  );
  inSteps(list, {
    pause: () => {
      clearTimeout(waiting);
      const place = picked === null ? null : list.selectedIndex;
      picked = null;
      return place;
    },
    goOn: (place) => {
      if (place >= list.options.length) return;
      list.selectedIndex = place;
      soon(list.value);
    },
  });
  list.addEventListener("keydown", ({ key }) => {
    if (key === "Enter") now();
    else if (key !== "Tab") stepped = performance.now();
  });
  list.addEventListener("blur", now);
  return list;
}

function some(control, chosen, named) {
  const boxes = control.choices.map((one, at) => {
    const id = freshId("choice");
    const box = make("input", {
      type: "checkbox",
      id,
      data: { key: `${named.data.key}/${at}` },
      onchange: () => chosen(one.value),
    });
    box.checked = one.chosen;
    return make("span", { class: "box" }, box, make("label", { for: id }, one.says));
  });
  const group = { role: "group", class: "some", "aria-label": named["aria-label"] };
  if (boxes.length <= FEW) return make("span", group, ...boxes);
  const chosenNow = control.choices.filter((one) => one.chosen).map((one) => one.says);
  return make(
    "details",
    { class: "many", open: chosenNow.length > 0 },
    make("summary", { data: { key: named.data.key } }, SAID.chosen(chosenNow)),
    make("span", group, ...boxes),
  );
}

function typed(control, chosen, named) {
  const field = make("input", { inputmode: "decimal", size: 6, ...named, title: control.says });
  field.value = field.defaultValue = control.typed;
  field.addEventListener("change", () => {
    const number = field.value.trim().replace(",", ".");
    if (number) chosen(filled(control.value, number));
    else if (control.choices.length) chosen(control.choices[0].value);
    else field.value = control.typed;
  });
  return field;
}

function written(control, chosen, named) {
  const field = make("input", { size: 20, ...named, title: control.says });
  field.value = field.defaultValue = control.typed;
  field.addEventListener("change", () => {
    const words = field.value.trim();
    if (words) chosen(filled(control.value, words));
    else if (control.choices.length) chosen(control.choices[0].value);
  });
  return field;
}

/** A value with a number in the place of "#". */
function filled(value, number) {
  if (value === "#") return number;
  if (Array.isArray(value)) return value.map((item) => filled(item, number));
  if (value === null || typeof value !== "object") return value;
  return Object.fromEntries(
    Object.entries(value).map(([name, inside]) => [name, filled(inside, number)]),
  );
}

/** The values that a control offers, in order: what is to be counted. */
export function valuesOf(control) {
  return [...control.choices.map(({ value }) => value), ...control.parts.flatMap(valuesOf)];
}

const told = new WeakMap(); // what each option and box would leave, as far as it is counted

/** What each choice of a list, or a box, would leave, as a list to be read before one is chosen. */
export function leftBy(field) {
  const options = [...(field.options ?? [field])].filter((option) => told.has(option));
  return options.map((option) => {
    const { says, count, why, chosen } = told.get(option);
    const kind = [count === 0 ? "none" : "", chosen ? "chosen" : ""].join(" ").trim();
    const words = [make("span", { class: "choice-says" }, says), " ", SAID.left(count)];
    const because = String(why) ? [" ", SAID.because(why)] : [];
    return make("li", { class: kind || null }, ...words, ...because);
  });
}

/** Write beside each choice what it would leave; `counts` are in the order of `valuesOf`. */
export function writeCounts(element, control, counts) {
  let at = 0;
  const fill = (one, key) => {
    for (const [place, option] of one.choices.entries()) {
      const left = counts[at];
      at += 1;
      if (!left) continue;
      const shown = SAID.choice(option.says, SAID.left(left.count));
      if (one.kind === "some") {
        const box = element.querySelector(`[data-key="${key}/${place}"]`);
        put(box.nextSibling, shown);
        box.parentElement.classList.toggle("none", left.count === 0);
        told.set(box, { ...left, says: option.says, chosen: option.chosen });
      } else if (one.kind === "one") {
        const select = element.querySelector(`select[data-key="${key}"]`);
        const written = select.options[place];
        put(written, option.chosen ? option.says : shown);
        written.classList.toggle("none", left.count === 0);
        told.set(written, { ...left, says: option.says, chosen: option.chosen });
      }
    }
    one.parts.forEach((part, place) => fill(part, `${key}/${place}`));
  };
  fill(control, element.dataset.word);
}

/** A button that says what it does to which rung. */
export function rungButton(words, rung, onclick, attributes = {}) {
  return button(words, onclick, { "aria-label": SAID.of_rung(words, rung), ...attributes });
}
