// Pictures that the engine drew (SVG), on the page.
//
// Each stands in a shadow root of its own: the names in one picture mean nothing in another.

import { make } from "./elements.mjs";

const reader = new DOMParser();
const sheet = new CSSStyleSheet();
sheet.replaceSync("svg { display: block; width: 100%; height: auto; } .question { cursor: pointer; }");

/** The element of a picture's text. Only what the engine itself drew is given to it. */
export function drawn(svg) {
  const root = reader.parseFromString(svg, "image/svg+xml").documentElement;
  if (root.localName !== "svg") throw new Error("this is no picture");
  return document.importNode(root, true);
}

/** A picture as an element of the page, as wide as there is room. */
export function picture(svg, attributes = {}) {
  const host = make("div", { class: "picture", ...attributes });
  const root = host.attachShadow({ mode: "open" });
  root.adoptedStyleSheets = [sheet];
  if (svg) root.append(typeof svg === "string" ? drawn(svg) : svg);
  return host;
}

/** Put another picture into the element of one. */
export function redraw(host, svg) {
  host.shadowRoot.replaceChildren(drawn(svg));
}

/** A picture's size in millimetres: {width, height}. */
export function sizeOf(host) {
  const { width, height } = host.shadowRoot.querySelector("svg").viewBox.baseVal;
  return { width, height };
}
