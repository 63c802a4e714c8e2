// The page's program: builds the frame at once, then starts the engine.

import { Engine } from "./engine.mjs";
import { frame } from "./frame.mjs";
import { Lesson } from "./state.mjs";
import { WORDS } from "./words.mjs";

const carried = (name) => document.getElementById(`part-${name}`).textContent.trim();
const begun = performance.now();

const lesson = new Lesson();
const DEMO = "produce-stall";
const places = frame(lesson);
globalThis.rungsheet = { lesson, places };

// What the page carries stands below this program, and is there when all of it is read.
document.addEventListener("DOMContentLoaded", () => {
  const engine = new Engine(carried);
  lesson.begin(engine);
  globalThis.rungsheet.engine = engine;
  engine.addEventListener("state", () => {
    document.body.dataset.engine = engine.state;
    if (engine.state === "ready") globalThis.rungsheet.start ??= performance.now() - begun;
    if (engine.state === "broken") lesson.say(WORDS.engine.broken);
  });
  begin();
});

/** Open the demo, unless another lesson was opened before. */
async function begin() {
  const { result } = await lesson.ask("lessons");
  lesson.shipped = result;
  const demo = result.find(({ name }) => name === DEMO);
  if (!lesson.text) lesson.open(demo.text, `${DEMO}.yaml`);
  lesson.say(WORDS.engine.ready);
}
