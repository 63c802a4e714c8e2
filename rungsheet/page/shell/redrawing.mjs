// Parts of the page that are drawn again while someone is at work in them: the field that had the
// focus has it again, and what was typed there, or stepped to, and is not told yet is not lost.

const told = new WeakMap(); // what a field said at its last change
const lists = new WeakMap(); // lists that are gone through by key: {pause, goOn}
let drawing = false;

// A browser may say that a field which is taken away was left or changed: that is nobody's doing.
for (const name of ["change", "blur"])
  document.addEventListener(
    name,
    (event) => {
      if (drawing) event.stopImmediatePropagation();
      else if (name === "change") told.set(event.target, event.target.value);
    },
    true,
  );

/** Whether something stands in a field that is neither what it was drawn with nor told yet. */
function isUntold(field) {
  const { value, defaultValue, type } = field;
  const isText = field.matches("input:not([type=checkbox], [type=radio], [type=file])");
  return isText && type !== "hidden" && value !== defaultValue && value !== told.get(field);
}

/** Whether someone is typing in a field. */
function isTyping(field) {
  return field === document.activeElement && isUntold(field);
}

/** Write into a field what stands there now, but for someone who is typing in it. */
export function written(field, value) {
  if (!isTyping(field)) field.value = value;
  field.defaultValue = value;
}

/**
 * A list whose choice is made some time after a key has stepped to it: `pause()` withdraws what is
 * still to be chosen and gives its place, null where there is none; `goOn(place)` is at that again.
 */
export function inSteps(list, steps) {
  lists.set(list, steps);
}

/** The field of that key; where the control has become another, the one that took its place. */
export function fieldAgain(within, key) {
  const named = (one) => within.querySelector(`[data-key="${CSS.escape(one)}"]`);
  const found = named(key) ?? named(`${key}/0`);
  return found ?? (key.includes("/") ? fieldAgain(within, key.slice(0, key.lastIndexOf("/"))) : null);
}

/**
 * Draw a part of the page again: `draw()` does it, at once. The field that has the focus in it has
 * it afterwards, with what is typed there; where nothing has the focus, the field of `otherwise`.
 */
export function drawnAgain(within, draw, otherwise = "") {
  const focused = document.activeElement ?? document.body;
  const field = within.contains(focused) ? focused : null;
  const key = field?.dataset.key ?? (focused === document.body ? otherwise : "");
  const goOn = field && workIn(field);
  drawing = true;
  try {
    draw();
  } finally {
    drawing = false;
  }
  const again = key ? fieldAgain(within, key) : null;
  again?.focus({ preventScroll: true });
  if (again?.dataset.key === key) goOn?.(again);
}

/** What someone is doing in a field, to be gone on with in the one that takes its place; or null. */
function workIn(field) {
  const place = lists.get(field)?.pause() ?? null;
  if (place !== null) return (again) => lists.get(again)?.goOn(place);
  if (!isUntold(field)) return null;
  const { value, selectionStart, selectionEnd } = field;
  return (again) => {
    again.value = value;
    if (selectionStart !== null) again.setSelectionRange(selectionStart, selectionEnd);
    // To a browser, what a program wrote is no change: it is told when the field is left.
    again.addEventListener("blur", () => {
      if (isUntold(again)) again.dispatchEvent(new Event("change", { bubbles: true }));
    });
  };
}
