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
let plain = null; // what the engine says of the lesson
let row = []; // its moments
let at = 0;
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
  const begin = button(SAID.begin, () => start(0), { id: "begin", disabled: true });
  const again = button("", () => start(at), { id: "go-on", hidden: true });
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
    left = left && plain?.title === result.title && plain?.seed === result.seed;
    plain = result;
    told([]);
  } catch (error) {
    if (mine !== asked) return;
    if (!error.problems) {
      lesson.sayWhy(error);
      told([]);
    } else {
      plain = null;
      told(error.problems);
    }
  }
}

/** The page before it begins: what will be shown, for how long, and from where. */
function told(problems) {
  if (plain && !parts.whole.hidden) {
    // It came when the showing had begun: for the screen that there is.
    arrange();
    show(Math.min(at, row.length - 1));
    return;
  }
  const { begin, again, plan, problems: list } = parts;
  list.replaceChildren(...problems.map((one) => make("li", {}, ...problemSaid(one))));
  begin.disabled = again.disabled = !plain;
  again.hidden = !plain || !left;
  plan.replaceChildren();
  if (!plain) return;
  row = moments(plain, { width: 1600, height: 900, whole: 960 }, null);
  if (left) put(again, SAID.go_on(row[Math.min(at, row.length - 1)].part));
  const firsts = row.flatMap((one, index) => (isSame(one.part, row[index - 1]?.part) ? [] : [index]));
  for (const index of firsts) {
    const { part, says, timed } = row[index];
    const minutes = timed && labelled(SAID.minutes, minutesOf(timed, part));
    plan.append(
      make(
        "li",
        {},
        button(part, () => start(index), { class: "part" }),
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

/** How long the timer runs there: as in the lesson, or as the teacher says. */
function minutesOf(section, part) {
  const usual = section.minutes ?? USUAL;
  section.minutes = usual;
  const told = (minutes) => {
    section.minutes = minutes;
  };
  return wholeNumber(usual, 1, LONGEST, told, { "aria-label": SAID.minutes_for(part) });
}

function start(index) {
  const { whole, entry } = parts;
  const part = row[index].part;
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
  show(Math.max(0, index === at ? index : row.findIndex((one) => isSame(one.part, part))));
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
  const { part } = row[at];
  const before = row.slice(0, at).filter((one) => isSame(one.part, part)).length;
  arrange();
  const first = row.findIndex((one) => isSame(one.part, part));
  const many = row.filter((one) => isSame(one.part, part)).length;
  show(first + Math.min(before, many - 1));
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
  again.hidden = false;
  put(again, SAID.go_on(row[at].part));
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
