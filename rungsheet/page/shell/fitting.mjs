// Words as large as a screen allows.

import { make } from "./elements.mjs";
import { WORDS } from "./speaking.mjs";

/** Of a digit's height, 1490/2048 of its em (layouts/planning/typeface.py): this em makes digits
 * a twelfth of the screen's height, which is read from the back of a room. */
export const ENOUGH = 2048 / 1490 / 12;
const LARGEST = 1.7 * ENOUGH;
const SMALLEST = 0.2 * ENOUGH;
const MOST_COLUMNS = 3;

const BOXES = { "\u25a1": "digit", "\u25ad": "number" };

/** A text, its empty boxes drawn: no typeface has them in the size of a digit. */
export function lettered(text) {
  return text.split(/([\u25a1\u25ad])/).map((part) => {
    const kind = BOXES[part];
    if (!kind) return part;
    return make("span", { class: `box-${kind}`, role: "img", "aria-label": WORDS.in_class.box });
  });
}

/** The largest em, in pixels, with which `box` holds what is in it; tries from `most` down. */
export function fitted(box, least, most) {
  const fits = (em) => {
    box.style.fontSize = `${em}px`;
    return box.scrollWidth <= box.clientWidth && box.scrollHeight <= box.clientHeight;
  };
  let [low, high] = [least, most];
  if (fits(high)) return high;
  while (high - low > 0.25) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  box.style.fontSize = `${low}px`;
  return low;
}

/** A list of entries in columns, read down one column after another. */
export function listed(entries, columns) {
  const rows = Math.ceil(entries.length / columns);
  return make(
    "div",
    {
      class: "entries",
      style: {
        gridTemplateRows: `repeat(${rows}, auto)`,
        gridTemplateColumns: `repeat(${columns}, minmax(0, 1fr))`,
      },
    },
    ...entries,
  );
}

/** How entries stand on as few screens as let their digits be large enough: {from, to, columns, em,
 * onOneLine}.
 *
 * `entry(item)` makes one, with its answer. Where even one alone is too long, as large as they go.
 * The screen is so wide and high as there is room, and `whole` is its height with the strip.
 */
export function spread(items, entry, { width, height, whole }, stage) {
  if (!stage) return [{ from: 0, to: items.length, columns: 1, em: 0 }];
  const box = make("div", { class: "trial", style: { width: `${width}px`, height: `${height}px` } });
  stage.append(box);
  const enough = ENOUGH * whole;
  let best = null;
  for (let screens = 1; screens <= items.length; screens += 1) {
    const each = Math.ceil(items.length / screens);
    if (best && each === best.each) continue;
    const found = tried(items, entry, each, box, height, enough);
    if (!best || found.em >= enough || found.em > 1.1 * best.em) best = { ...found, each };
    if (best.em >= enough) break;
  }
  box.remove();
  const { each, columns, em, onOneLine } = best;
  const found = [];
  for (let from = 0; from < items.length; from += each)
    found.push({ from, to: Math.min(from + each, items.length), columns, em, onOneLine });
  return found;
}

/**
 * So many entries on each screen: in how many columns they are largest, and how large. Where their
 * digits can be large enough without it, none goes over the end of its line.
 */
function tried(items, entry, each, box, height, enough) {
  let best = { em: 0, columns: 1 };
  for (const onOneLine of [true, false]) {
    box.classList.toggle("on-one-line", onOneLine);
    for (let columns = 1; columns <= Math.min(MOST_COLUMNS, each); columns += 1) {
      let em = LARGEST * height;
      for (let from = 0; from < items.length && em > best.em; from += each) {
        box.replaceChildren(listed(items.slice(from, from + each).map(entry), columns));
        em = Math.min(em, fitted(box, SMALLEST * height, em));
      }
      if (em > best.em) best = { em, columns, onOneLine };
    }
    if (best.em >= enough) break;
  }
  return best;
}
