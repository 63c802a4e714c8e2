// The page's program: starts the engine and shows the lesson.

import { Engine } from "./engine.mjs";

const carried = (name) => document.getElementById(`part-${name}`).textContent.trim();
const state = document.getElementById("state");
const begun = performance.now();

const engine = new Engine(carried);
engine.addEventListener("state", () => {
  document.body.dataset.engine = engine.state;
  state.textContent = { starting: "Getting ready…", ready: "Ready.", working: "Working…" }[
    engine.state
  ] ?? "This browser cannot run the page. Open it in another, or bring this one up to date.";
  if (engine.state === "ready") globalThis.rungsheet.start ??= performance.now() - begun;
});

globalThis.rungsheet = { engine };
