// The page's program: builds the frame at once, then starts the engine.

import { Engine, NotDone } from "./engine.mjs";
import { frame } from "./frame.mjs";
import { fromLink } from "./links.mjs";
import { Lesson } from "./state.mjs";
import { FIRST, WORDS, begin as beginToSpeak } from "./speaking.mjs";

const carried = (name) => document.getElementById(`part-${name}`).textContent.trim();
const begun = performance.now();

beginToSpeak();
const lesson = new Lesson();
const DEMO = "produce-stall";
let refused = ""; // why a link's lesson could not be opened
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
    if (engine.state === "broken") lesson.sayWhy(new NotDone("broken"));
  });
  begin().catch((error) => lesson.sayWhy(error));
});

/** Open the lesson of the link, or the demo, unless another lesson was opened before. */
async function begin() {
  await openLinked();
  globalThis.addEventListener("hashchange", openLinked);
  const { result } = await lesson.ask("lessons");
  lesson.change({ shipped: result });
  const demo = result.find(({ name }) => name === DEMO);
  if (!lesson.text) lesson.open(demo.text.in(FIRST), `${DEMO}.yaml`); // as its first sheet is
  lesson.say(refused || WORDS.engine.ready);
}

/** Open the lesson that the address holds after #, if it holds one. */
async function openLinked() {
  try {
    const found = await fromLink(location.hash);
    if (found) lesson.open(found.text, found.name, found.seed, found);
    refused = "";
  } catch (error) {
    refused = WORDS.passing_on[error.why] ?? WORDS.passing_on.damaged;
    lesson.say(refused);
  }
}
