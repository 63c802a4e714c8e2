// The lesson that every screen shows: the text of its spec, which of its packs, and how it looks.
//
// Screens read the values, change them by `change`, and hear of changes by the event "change",
// whose `detail` is a set of the names that changed. Nothing here outlives the page.

import { problemsSaid } from "./elements.mjs";
import { NotDone } from "./engine.mjs";
import { LANGUAGES, WORDS, languageCalled } from "./speaking.mjs";

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

  /**
   * What the engine read in the text (the job "read"), and the problems of the text if any. The
   * spec is that of this lesson's last text that could be read: null where there was none yet.
   */
  spec = null;
  problems = [];

  /** How often another lesson was opened, which the undoing of that does too: whose it all is. */
  opening = 0;

  /** The text as it stands in a file or a link: as it was opened, or saved last. */
  kept = "";

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
   * Change some values of this lesson; whoever listens is told which of them are others now.
   * What is `typed` key by key is undone a few seconds at a time.
   */
  change(values, { typed = false } = {}) {
    if (values.text !== undefined && values.text !== this.text && this.text) {
      const now = performance.now();
      if (!typed || now - this.#typed > 3000) {
        this.#willBeUndone({ values: { text: this.text }, opens: false });
        this.#typed = typed ? now : 0;
      }
      this.#undone = [];
    }
    this.#set(values);
  }

  /**
   * Another lesson: its text and the name of its file, the seed if it has one, and what else is
   * `known` of its pack (versions, large, tint, key_words). All of it is undone at once.
   */
  open(text, name, seed = 1, known = {}) {
    const values = { versions: 1, ...known, text, name, seed, kept: text };
    if (this.text && Object.keys(values).some((name) => this[name] !== values[name])) {
      this.#willBeUndone({ values: this.#as(values), opens: true });
      this.#undone = [];
    }
    this.#typed = 0;
    this.#opened();
    this.#set(values);
  }

  /** The text has just been saved. */
  wasSaved() {
    this.kept = this.text;
  }

  /** Whether nothing is lost with the page: the text is kept elsewhere, or ships. */
  get isKept() {
    const ships = ({ text }) => LANGUAGES.some(({ LANGUAGE }) => text.in(LANGUAGE) === this.text);
    return this.text === this.kept || this.shipped.some(ships);
  }

  /** Whatever was read, or is being changed, is of another lesson from now on. */
  #opened() {
    this.opening += 1;
    this.spec = null;
    this.problems = [];
  }

  /** The values of those names as they are now. */
  #as(values) {
    return Object.fromEntries(Object.keys(values).map((name) => [name, this[name]]));
  }

  #willBeUndone(step) {
    this.#done.push(step);
    if (this.#done.length > 200) this.#done.shift();
  }

  get canUndo() {
    return this.#done.length > 0;
  }

  get canRedo() {
    return this.#undone.length > 0;
  }

  /** The text as it was before its last change; the lesson before, where another was opened. */
  undo() {
    this.#step(this.#done, this.#undone);
  }

  /** What was undone, done again. */
  redo() {
    this.#step(this.#undone, this.#done);
  }

  #step(from, onto) {
    const step = from.pop();
    if (!step) return;
    const { values, opens } = step;
    onto.push({ values: this.#as(values), opens });
    this.#typed = 0;
    if (opens) this.#opened();
    this.#set(values);
  }

  #set(values) {
    const changed = Object.keys(values).filter((name) => this[name] !== values[name]);
    Object.assign(this, values);
    if (changed.length) this.dispatchEvent(new CustomEvent("change", { detail: new Set(changed) }));
    if (this.text && (changed.includes("text") || !this.isRead)) {
      clearTimeout(this.#pause);
      this.#pause = setTimeout(() => this.#read(), this.isRead ? 150 : 0);
    }
  }

  /** Whether the engine has read what was opened, or has found what is wrong in it. */
  get isRead() {
    return this.spec !== null || this.problems.length > 0;
  }

  /** Read the text, once its changes pause; told by the event "read". */
  async #read() {
    const { opening } = this;
    try {
      const { result } = await this.ask("read", {}, { instead: "read" });
      if (opening !== this.opening) return;
      this.spec = result;
      this.problems = [];
    } catch (error) {
      if (error.why === "withdrawn" || opening !== this.opening) return;
      if (error.why === "stopped") return this.#read(); // what was typed is to be read all the same
      if (error.problems) this.problems = error.problems;
      else this.sayWhy(error);
      if (!error.problems && this.spec) return;
    }
    this.dispatchEvent(new Event("read"));
  }

  /**
   * Change the text as a control asks (bridge.py, "edit"); rejects with Problems where not.
   * What is typed in the meantime is not lost: the change is then made to that. Where another
   * lesson was opened it is withdrawn: it was meant for the one before.
   */
  async edit(job, ...to) {
    const { opening } = this;
    const ofAnother = () => opening !== this.opening;
    for (;;) {
      const before = this.text;
      const { result } = await this.ask("edit", { do: job, to }).catch((error) => {
        throw ofAnother() ? new NotDone("withdrawn") : error;
      });
      if (ofAnother()) throw new NotDone("withdrawn");
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
    else if (error.why === "broken") this.say(WORDS.engine.broken);
    else if (error.why !== "withdrawn") this.say(WORDS.not_done[error.why] ?? WORDS.not_done.fault);
  }
}
