// Elements made from data. Text only ever becomes text: nothing here reads markup.

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
    else element.setAttribute(name, value === true ? "" : value);
  }
  element.append(...children.flat().filter((child) => child !== null && child !== undefined));
  return element;
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

/** A choice of a few: `options` are [value, words]. */
export function choice(options, chosen, onchange, attributes = {}) {
  const made = options.map(([value, words]) => make("option", { value }, words));
  const select = make("select", { ...attributes, onchange: () => onchange(select.value) }, ...made);
  select.value = chosen;
  return select;
}

/** A whole number from `least` to `most`; told when it is one and another than before. */
export function wholeNumber(value, least, most, onchange, attributes = {}) {
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
      if (good) onchange(typed);
      else input.value = input.defaultValue;
    },
  });
  input.value = input.defaultValue = String(value);
  return input;
}
