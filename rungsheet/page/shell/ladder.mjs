// The ladder: each rung a strip with what it asks, how many questions it has and one of them.
// One strip is open at a time; there its words are changed.

import { controlOf, leftBy, rungButton, valuesOf, writeCounts } from "./controls.mjs";
import { button, choice, labelled, make, problemsSaid, put } from "./elements.mjs";
import { picture, sizeOf } from "./pictures.mjs";
import { drawnAgain } from "./redrawing.mjs";
import { WORDS } from "./speaking.mjs";

const SAID = WORDS.lesson;

/** How a rung's question is shown: pixels a millimetre, and the most pixels across and down. */
const [SCALE, WIDEST, TALLEST] = [2.6, 176, 104];
/** Where fewer pixels a millimetre would be needed, its words are shown instead. */
const SMALLEST = 2.2;

export class Ladder {
  #lesson;
  #rungs = [];
  #openRung = null;
  #strips = make("ol", { class: "strips" });
  #showing = 0;
  #counting = 0;
  #focus = ""; // the field in which something was chosen last, by its key
  #left = new Map(); // what each choice of the open strip's words would leave, by the word

  constructor(lesson) {
    this.#lesson = lesson;
    const name = make("input", { size: 18, maxlength: 60 });
    const operation = choice(Object.entries(SAID.operations), "add", () => {});
    const add = async () => {
      const wanted = name.value || String(SAID.operations[operation.value]);
      const before = this.#openRung;
      this.#openRung = plainName(wanted); // its conditions come next
      const why = await this.#edit("add", wanted, operation.value);
      if (why === null) name.value = "";
      else this.#openRung = before;
      put(adding.querySelector(".why"), why);
    };
    const adding = make(
      "div",
      { role: "group", class: "tools adding", "aria-label": SAID.add },
      labelled(SAID.add_name, name),
      labelled(SAID.add_operation, operation),
      button(SAID.add, add, { id: "add-rung" }),
      make("p", { class: "why", role: "alert" }),
    );
    this.element = make(
      "section",
      { class: "ladder", "aria-label": SAID.ladder },
      make("h2", {}, SAID.ladder),
      make("p", { class: "quiet" }, SAID.ladder_says),
      this.#strips,
      adding,
    );
  }

  /** Show the rungs as the engine counted them; one that was open stays so. */
  async show(rungs) {
    this.#showing += 1;
    const turn = this.#showing;
    const name = rungs.some((rung) => rung.name === this.#openRung) ? this.#openRung : null;
    const words = name && (await this.#wordsOf(name)); // first, so that all is drawn at once
    if (turn !== this.#showing) return;
    const isFilled = words && name === this.#openRung;
    const draw = () => {
      this.#rungs = rungs;
      this.#strips.replaceChildren(...rungs.map((rung, at) => this.#strip(rung, at)));
      if (isFilled) this.#fillWith(name, words);
    };
    drawnAgain(this.#strips, draw, this.#focus);
    this.#focus = "";
    if (!isFilled) this.#fill(); // another was opened meanwhile
  }

  /** What is shown is of an older text, until that is put right. */
  stale(is) {
    this.#strips.inert = is;
    this.#strips.classList.toggle("stale", is);
  }

  #strip(rung, at) {
    const isOpen = rung.name === this.#openRung;
    const body = make("div", { class: "strip-body", id: `rung-${rung.name}`, hidden: !isOpen });
    const head = make(
      "button",
      {
        type: "button",
        class: "strip-head",
        "aria-expanded": String(isOpen),
        "aria-controls": body.id,
        data: { key: `head ${rung.name}` },
        onclick: () => this.#toggle(rung.name),
      },
      make("span", { class: "strip-name" }, this.#lesson.called(rung.name)),
      make("span", { class: "strip-count" }, SAID.questions(rung.questions)),
      make("span", { class: "strip-says" }, rung.says),
    );
    const sample = make("div", { class: "sample" }, rung.picture ? picture(rung.picture) : null);
    if (rung.picture) {
      const { width, height } = sizeOf(sample.firstChild);
      sample.firstChild.style.width = `${width * Math.min(SCALE, TALLEST / height)}px`;
      if (WIDEST / width < SMALLEST) sample.replaceChildren(make("p", { lang: this.#lesson.language }, rung.shown));
    }
    return make("li", { class: "strip", data: { rung: rung.name, at } }, head, sample, body);
  }

  #toggle(name) {
    this.#openRung = this.#openRung === name ? null : name;
    for (const strip of this.#strips.children) {
      const isOpen = strip.dataset.rung === this.#openRung;
      strip.querySelector(".strip-head").setAttribute("aria-expanded", String(isOpen));
      const body = strip.querySelector(".strip-body");
      body.hidden = !isOpen;
      if (!isOpen) body.replaceChildren();
    }
    this.#fill();
  }

  #body(name) {
    return [...this.#strips.children]
      .find((strip) => strip.dataset.rung === name)
      ?.querySelector(".strip-body");
  }

  /** Fill the open strip with controls, and then, while nothing else is asked, with counts. */
  async #fill() {
    const name = this.#openRung;
    this.#counting += 1;
    if (!name || !this.#body(name)) return;
    const words = await this.#wordsOf(name);
    if (words && name === this.#openRung)
      drawnAgain(this.#strips, () => this.#fillWith(name, words));
  }

  #fillWith(name, words) {
    const body = this.#body(name);
    if (!body) return;
    const rows = words.map((view) => this.#row(name, view));
    body.replaceChildren(this.#tools(name), ...rows, make("p", { class: "quiet" }, SAID.counts_say));
    this.#counting += 1;
    this.#count(name, words, body);
  }

  /** The words that a rung may have, with their controls; null where they are not to be had. */
  async #wordsOf(name) {
    try {
      const { result } = await this.#lesson.ask("rung", { rung: name }, { instead: "rung" });
      return result.words;
    } catch (error) {
      this.#lesson.sayWhy(error);
      return null;
    }
  }

  #tools(name) {
    const at = this.#rungs.findIndex((rung) => rung.name === name);
    const called = this.#lesson.called(name);
    const why = make("p", { class: "why", role: "alert" });
    const told = async (...edit) => {
      put(why, await this.#edit(...edit));
    };
    const field = make("input", { size: 18, maxlength: 60, data: { key: "name" } });
    field.value = field.defaultValue = String(called);
    field.addEventListener("change", async () => {
      this.#openRung = plainName(field.value);
      const refused = await this.#edit("rename", name, field.value);
      if (refused === null) return;
      this.#openRung = name;
      field.value = String(called);
      put(why, refused);
    });
    return make(
      "div",
      { class: "tools" },
      labelled(SAID.rung_name, field),
      rungButton(SAID.copy, called, () => told("copy", name), { data: { key: "copy" } }),
      rungButton(SAID.up, called, () => told("move", name, -1), {
        disabled: at === 0,
        data: { key: "up" },
      }),
      rungButton(SAID.down, called, () => told("move", name, 1), {
        disabled: at === this.#rungs.length - 1,
        data: { key: "down" },
      }),
      rungButton(SAID.remove, called, () => told("remove", name), { data: { key: "remove" } }),
      why,
    );
  }

  #row(name, view) {
    const why = make("p", { class: "why", role: "alert" });
    const chosen = async (value) => {
      this.#focus = document.activeElement?.dataset?.key ?? "";
      const refused =
        view.word === "operation"
          ? await this.#edit("operation", name, value)
          : await this.#edit("word", name, view.word, value);
      if (refused === null) return;
      const draw = () => {
        put(control, controlOf(view.label, view.control, chosen, view.word));
        const known = this.#left.get(view.word);
        if (known) writeCounts(control, view.control, known);
      };
      drawnAgain(control, draw, this.#focus);
      this.#focus = "";
      put(why, refused);
    };
    const control = make(
      "span",
      { class: "control", data: { word: view.word } },
      controlOf(view.label, view.control, chosen, view.word),
    );
    const counts = make("ul", { class: "row-left", "aria-hidden": "true" });
    const row = make(
      "div",
      { class: view.said ? "row" : "row unsaid", data: { row: view.word } },
      make("span", { class: "row-word", title: view.says }, view.label),
      control,
      make("p", { class: "row-says quiet" }, view.says),
      counts,
      why,
    );
    row.addEventListener("focusin", ({ target }) => counts.replaceChildren(...leftBy(target)));
    return row;
  }

  /** What each choice of the open strip would leave: asked a little at a time. */
  async #count(name, words, body) {
    const turn = this.#counting;
    this.#left.clear();
    const here = () => turn === this.#counting && body.isConnected;
    const quickly = words.filter((view) => !view.takes_long);
    const slowly = words.filter((view) => view.takes_long);
    for (const { word, control } of [...quickly, ...slowly]) {
      const values = valuesOf(control);
      const counts = [];
      while (counts.length < values.length) {
        await idle();
        if (!here()) return;
        try {
          const rest = values.slice(counts.length);
          const asked = { rung: name, word, values: rest };
          const { result } = await this.#lesson.ask("left", asked, { instead: "left" });
          counts.push(...result);
        } catch {
          return; // another text has come, or the engine has stopped
        }
        if (!here()) return;
      }
      const element = body.querySelector(`[data-word="${word}"]`);
      if (!element) continue;
      this.#left.set(word, counts);
      writeCounts(element, control, counts);
      const focused = document.activeElement;
      if (element.contains(focused))
        element.parentElement.querySelector(".row-left").replaceChildren(...leftBy(focused));
    }
    body.dataset.counted = "";
  }

  /** Change the text; gives null, or why that cannot be. */
  async #edit(...change) {
    try {
      await this.#lesson.edit(...change);
      return null;
    } catch (error) {
      if (error.problems)
        return problemsSaid(error.problems, { lines: false });
      this.#lesson.sayWhy(error);
      return "";
    }
  }
}

const UMLAUTS = { ä: "ae", ö: "oe", ü: "ue", ß: "ss" };

/** A name as the engine keeps it, near enough to know a strip again. */
function plainName(name) {
  const letters = name.toLowerCase().replaceAll(/[äöüß]/g, (sign) => UMLAUTS[sign]).normalize("NFKD");
  return letters.replaceAll(/\p{M}/gu, "").replaceAll(/[^a-z0-9]+/g, "-").replaceAll(/^-|-$/g, "");
}

function idle() {
  return new Promise((ready) => {
    if (globalThis.requestIdleCallback) requestIdleCallback(ready, { timeout: 300 });
    else setTimeout(ready, 30);
  });
}
