// The lesson that every screen shows: the text of its spec, which of its packs, and how it looks.
//
// Screens read the values, change them by `change`, and hear of changes by the event "change",
// whose `detail` is a set of the names that changed. Nothing here outlives the page.

import { problemsSaid } from "./elements.mjs";
import { WORDS, languageCalled } from "./speaking.mjs";

export class Lesson extends EventTarget {
  /** The spec as text, and the name of its file. */
  text = "";
  name = "lesson.yaml";

  /** Which of the spec's packs: its seed, and how many versions of each practice sheet. */
  seed = 1;
  versions = 1;

  /** Large print in points (0: as the spec has it), and a tint ("": as the spec has it). */
  large = 0;
  tint = "";
  /** The language in which sheets have their key words too ("": as the spec has it). */
  key_words = "";

  /** What the engine read in the text (the job "read"), and the problems of the text if any. */
  spec = null;
  problems = [];

  /** The lessons that ship: [{name, text}], the demo first; their texts are sayings. */
  shipped = [];

  #engine = null;
  #typed = 0;
  #pause = 0;
  #waiting = [];
  #undone = [];
  #done = [];

  /** From now on the engine can be asked. */
  begin(engine) {
    this.#engine = engine;
    for (const start of this.#waiting.splice(0)) start();
  }

  get engine() {
    return this.#engine;
  }

  /** What a job of a pack is asked with. */
  get asked() {
    const { text, name, seed, versions, large, tint, key_words } = this;
    const look = { large, tint: tint || undefined, key_words: key_words || undefined };
    return { text, name, seed, versions, ...look };
  }

  /** The title of the spec, as far as it could be read. */
  get title() {
    return this.spec?.title ?? "";
  }

  /** What a rung is called; in words, its name, where the engine has not said that yet. */
  called(rung) {
    const known = this.spec?.rungs.find(({ name }) => name === rung);
    return known?.spelt ?? WORDS.lesson.rung_says(rung);
  }

  /** The code of the language that its pages are in; null where it is not known. */
  get language() {
    return languageCalled(this.spec?.pages.language);
  }

  /** The answer of a job about this lesson: {result, files} (engine.mjs); `args` go before. */
  async ask(job, args = {}, options = {}) {
    if (!this.#engine) await new Promise((start) => this.#waiting.push(start));
    return this.#engine.ask(job, { ...this.asked, ...args }, options);
  }

  /**
   * Change some values; whoever listens is told which of them are others now.
   * What is `typed` key by key is undone a few seconds at a time.
   */
  change(values, { typed = false } = {}) {
    const changed = Object.keys(values).filter((name) => this[name] !== values[name]);
    if (changed.length === 0) return;
    if (changed.includes("text") && this.text) {
      const now = performance.now();
      if (!typed || now - this.#typed > 3000) {
        this.#done.push({ text: this.text, name: this.name });
        if (this.#done.length > 200) this.#done.shift();
        this.#typed = typed ? now : 0;
      }
      this.#undone = [];
    }
    this.#set(values, changed);
  }

  /** Another lesson: its text and the name of its file, and the seed if it has one. */
  open(text, name, seed = 1) {
    this.change({ text, name, seed, versions: 1 });
  }

  get canUndo() {
    return this.#done.length > 0;
  }

  get canRedo() {
    return this.#undone.length > 0;
  }

  /** The text as it was before its last change. */
  undo() {
    this.#step(this.#done, this.#undone);
  }

  /** The text as it was before it was undone. */
  redo() {
    this.#step(this.#undone, this.#done);
  }

  #step(from, onto) {
    const before = from.pop();
    if (!before) return;
    onto.push({ text: this.text, name: this.name });
    this.#typed = 0;
    this.#set(before, ["text", "name"]);
  }

  #set(values, changed) {
    Object.assign(this, values);
    this.dispatchEvent(new CustomEvent("change", { detail: new Set(changed) }));
    if (changed.includes("text")) {
      clearTimeout(this.#pause);
      this.#pause = setTimeout(() => this.#read(), this.spec ? 150 : 0);
    }
  }

  /** Read the text, once its changes pause; told by the event "read". */
  async #read() {
    try {
      const { result } = await this.ask("read", {}, { instead: "read" });
      this.spec = result;
      this.problems = [];
    } catch (error) {
      if (error.why === "stopped") return this.#read(); // what was typed is to be read all the same
      if (!error.problems) {
        this.sayWhy(error);
        return;
      }
      this.problems = error.problems;
    }
    this.dispatchEvent(new Event("read"));
  }

  /**
   * Change the text as a control asks (bridge.py, "edit"); rejects with Problems where not.
   * What is typed in the meantime is not lost: the change is then made to that.
   */
  async edit(job, ...to) {
    for (;;) {
      const before = this.text;
      const { result } = await this.ask("edit", { do: job, to });
      if (this.text !== before) continue;
      this.change({ text: result.text });
      return;
    }
  }

  /** Go to another of the page's places. */
  go(place) {
    this.dispatchEvent(new CustomEvent("go", { detail: place }));
  }

  /** Say something to whoever looks or listens: a text, a saying, or what is put into an element. */
  say(text) {
    this.dispatchEvent(new CustomEvent("said", { detail: text }));
  }

  /** Say why a job was not done; nothing where a later one took its place. */
  sayWhy(error) {
    if (error.problems) this.say(problemsSaid(error.problems));
    else if (error.why !== "withdrawn") this.say(WORDS.not_done[error.why] ?? WORDS.not_done.fault);
  }
}
