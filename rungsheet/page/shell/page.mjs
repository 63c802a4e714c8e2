// The page's program: builds the frame at once, then starts the engine.

import { Engine } from "./engine.mjs";
import { frame } from "./frame.mjs";
import { Lesson } from "./state.mjs";

const carried = (name) => document.getElementById(`part-${name}`).textContent.trim();
const begun = performance.now();

const lesson = new Lesson();
const places = frame(lesson);
globalThis.rungsheet = { lesson, places };

// What the page carries stands below this program, and is there when all of it is read.
document.addEventListener("DOMContentLoaded", () => {
  const engine = new Engine(carried);
  globalThis.rungsheet.engine = engine;
  engine.addEventListener("state", () => {
    document.body.dataset.engine = engine.state;
    if (engine.state === "ready") globalThis.rungsheet.start ??= performance.now() - begun;
  });
  lesson.begin(engine);
});
