// In class: the lesson on the whole screen, moved on by a key, a clicker or a click.
//
// It is a row of moments (moments.mjs). The strip at the foot says which one is shown.

import { button, labelled, make, problemSaid, put, wholeNumber } from "./elements.mjs";
import { moments } from "./moments.mjs";
import { Timer } from "./timer.mjs";
import { WORDS, attribute } from "./speaking.mjs";

const SAID = WORDS.in_class;
const [USUAL, LONGEST] = [10, 180]; // minutes of the timer

const KEYS = {
  ArrowRight: on,
  ArrowDown: on,
  PageDown: on,
  " ": on,
  Enter: on,
  ArrowLeft: back,
  ArrowUp: back,
  PageUp: back,
  Backspace: back,
  Home: () => show(0),
  End: () => show(row.length - 1),
  a: all,
  b: dark,
  ".": dark,
  t: () => timer.turn(),
  Escape: leave,
};

let lesson = null;
let parts = null;
let plain = null; // what the engine says of the lesson, and the minutes that the teacher gives it
let came = ""; // what the engine said, as it came
let row = []; // its moments
let at = 0;
let here = null; // where that is in the lesson, on a screen of any size: {part, within}
let left = false; // whether it was begun before, so that it can be gone on with
let asked = 0; // how often the engine was asked for the lesson
let size = null; // of the screen for which the moments are arranged
const timer = new Timer(tick);
const room = new ResizeObserver(() => resized());

export function open(section, shown) {
  lesson = shown;
  parts ??= build(section);
  lesson.addEventListener("change", fetched);
  fetched();
}

export function close() {
  lesson.removeEventListener("change", fetched);
  leave();
}

function build(host) {
  const begin = button(SAID.begin, () => start(placeOf(0)), { id: "begin", disabled: true });
  const again = button("", () => start(here), { id: "go-on", hidden: true });
  const plan = make("ol", { class: "plan" });
  const problems = make("ul", { class: "problems" });
  const keys = make("dl", { class: "keys" });
  for (const [key, does] of SAID.keys)
    keys.append(make("div", {}, make("dt", {}, key), make("dd", {}, does)));
  const entry = make(
    "div",
    { class: "entry" },
    make("p", {}, SAID.says),
    make("div", { class: "tools" }, begin, again),
    problems,
    make("h2", {}, SAID.plan),
    plan,
    make("h2", {}, SAID.keys_are),
    keys,
  );
  const stage = make("div", { class: "stage", "aria-live": "polite" });
  const where = make("p", { class: "where" });
  const clock = button("", () => timer.turn(), { class: "clock", title: SAID.timer_says });
  const strip = make(
    "div",
    { class: "strip" },
    button(SAID.back, back, { id: "show-back" }),
    button(SAID.on, on, { id: "show-on" }),
    where,
    clock,
    button(SAID.leave, leave, { id: "show-leave" }),
  );
  const black = make("div", { class: "black", hidden: true, onclick: dark });
  const whole = make(
    "div",
    { id: "show", role: "region", "aria-label": SAID.whole, tabindex: -1, hidden: true },
    stage,
    strip,
    black,
  );
  stage.addEventListener("click", on);
  strip.addEventListener("click", () => {
    if (!whole.hidden) whole.focus();
  });
  host.append(entry, whole);
  return { begin, again, plan, problems, entry, stage, where, clock, black, whole };
}

/** Ask the engine for the lesson as it is now: until it is there, nothing of it can begin. */
async function fetched() {
  if (!lesson.text) return;
  asked += 1;
  const mine = asked;
  if (parts.whole.hidden) {
    parts.begin.disabled = parts.again.disabled = true;
    parts.plan.replaceChildren();
  }
  try {
    const { result } = await lesson.ask("in class", {}, { instead: "show it in class" });
    if (mine !== asked) return; // the lesson has changed again
    const now = JSON.stringify(result);
    left = left && plain?.title === result.title && plain?.seed === result.seed;
    if (!plain || now !== came) plain = result; // else the minutes that were given stay
    came = now;
    told([]);
  } catch (error) {
    if (mine !== asked) return;
    plain = null; // what there was is of the lesson before
    if (!error.problems) lesson.sayWhy(error);
    told(error.problems ?? []);
  }
}

/** The page before it begins: what will be shown, for how long, and from where. */
function told(problems) {
  if (plain && !parts.whole.hidden) {
    // It came when the showing had begun: for the screen that there is.
    arrange();
    show(indexOf(here));
    return;
  }
  const { begin, again, plan, problems: list } = parts;
  list.replaceChildren(...problems.map((one) => make("li", {}, ...problemSaid(one))));
  if (plain) row = moments(plain, { width: 1600, height: 900, whole: 960 }, null);
  const isThere = plain !== null && row.length > 0;
  begin.disabled = again.disabled = !isThere;
  again.hidden = !isThere || !left;
  plan.replaceChildren();
  if (!isThere) return;
  if (left) put(again, SAID.go_on(row[indexOf(here)].part));
  const firsts = row.flatMap((one, index) => (isSame(one.part, row[index - 1]?.part) ? [] : [index]));
  for (const index of firsts) {
    const { part, says, timed } = row[index];
    const there = placeOf(index);
    const minutes = timed && labelled(SAID.minutes, minutesOf(timed, part));
    plan.append(
      make(
        "li",
        {},
        button(part, () => start(there), { class: "part" }),
        make("span", { class: "quiet" }, says),
        minutes || null,
      ),
    );
  }
}

/** Whether two moments are of the same part: by what it is called. */
function isSame(part, other) {
  return String(part) === String(other);
}

/** Where a moment is on a screen of any size: its part, and how many moments of that go before. */
function placeOf(index) {
  const { part } = row[index];
  return { part, within: row.slice(0, index).filter((one) => isSame(one.part, part)).length };
}

/** The moment at a place of the row as it is now; the nearest one before where the part has fewer. */
function indexOf({ part, within }) {
  const all = row.flatMap((one, index) => (isSame(one.part, part) ? [index] : []));
  return all[Math.min(within, all.length - 1)] ?? 0;
}

/** How long the timer runs there: as in the lesson, or as the teacher says. */
function minutesOf(section, part) {
  const usual = section.minutes ?? USUAL;
  section.minutes = usual;
  const told = (minutes) => {
    section.minutes = minutes;
  };
  return wholeNumber(usual, 1, LONGEST, told, { "aria-label": SAID.minutes_for(part) });
}

function start(from) {
  const { whole, entry } = parts;
  whole.hidden = false;
  document.body.classList.add("showing");
  for (const other of outside()) other.inert = true;
  entry.inert = true;
  document.addEventListener("keydown", pressed);
  document.addEventListener("fullscreenchange", left_full_screen);
  room.observe(parts.stage);
  whole.focus();
  const entered = whole.requestFullscreen?.({ navigationUI: "hide" });
  entered?.then(() => whole.hidden && out_of_full_screen()).catch(() => {}); // left before it came
  timer.reset();
  arrange();
  show(indexOf(from));
}

function outside() {
  return [document.getElementById("top"), document.getElementById("foot")];
}

/** The moments for this size of screen: what does not fit on one is shown on several. */
function arrange() {
  const { clientWidth: width, clientHeight: height } = parts.stage;
  const whole = parts.whole.clientHeight;
  size = { width, height, whole };
  row = moments(plain, size, parts.stage, lesson.language);
}

function resized() {
  const { clientWidth, clientHeight } = parts.stage;
  if (parts.whole.hidden || (clientWidth === size.width && clientHeight === size.height)) return;
  if (!plain) return; // what is shown stays, though the lesson has changed to one that cannot be
  arrange();
  show(indexOf(here));
}

function left_full_screen() {
  if (document.fullscreenElement !== parts.whole) leave();
}

function leave() {
  const { whole, entry, again, black } = parts;
  if (whole.hidden) return;
  document.removeEventListener("keydown", pressed);
  document.removeEventListener("fullscreenchange", left_full_screen);
  room.disconnect();
  timer.stop();
  black.hidden = true;
  whole.hidden = true;
  document.body.classList.remove("showing");
  for (const other of outside()) other.inert = false;
  entry.inert = false;
  left = true;
  again.hidden = !plain;
  put(again, SAID.go_on(here.part));
  again.focus();
  if (document.fullscreenElement === whole) out_of_full_screen();
}

function out_of_full_screen() {
  const out = document.exitFullscreen();
  out.catch(() => {}).then(() => parts.again.focus()); // a browser that leaves it forgets the focus
}

function pressed(event) {
  if (event.ctrlKey || event.altKey || event.metaKey) return;
  const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
  const ofButton = event.target.closest?.("#show button") && (key === "Enter" || key === " ");
  if (ofButton || !Object.hasOwn(KEYS, key)) return;
  event.preventDefault();
  if (!parts.black.hidden && key !== "Escape") dark();
  else KEYS[key]();
}

function on() {
  show(at + 1);
}

function back() {
  show(at - 1);
}

/** All answers at once, where they would come one by one. */
function all() {
  show(at + (row[at].more ?? 0));
}

function dark() {
  parts.black.hidden = !parts.black.hidden;
}

function show(index) {
  if (index < 0 || index >= row.length) return;
  at = index;
  here = placeOf(index);
  if (lesson.language) parts.stage.lang = lesson.language;
  const { part, place, timed, draw } = row[at];
  draw(parts.stage);
  put(parts.where, SAID.where(part, place));
  timer.of(timed);
  tick();
}

function tick() {
  const { clock } = parts;
  clock.hidden = !timer.shown;
  clock.textContent = timer.text;
  clock.classList.toggle("over", timer.over);
  attribute(clock, "aria-label", SAID.timer(timer.text, timer.running, timer.over));
}
