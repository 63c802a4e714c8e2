// How the lesson is worked and set out: written methods, frames, estimates, and how pages write.
// For the whole lesson or one of its parts; what can be chosen comes from the engine.

import { controlOf } from "./controls.mjs";
import { choice, freshId, labelled, make, problemsSaid, put } from "./elements.mjs";
import { drawnAgain } from "./redrawing.mjs";
import { WORDS } from "./speaking.mjs";

const SAID = WORDS.lesson;

export class Settings {
  #lesson;
  #section = ""; // of which part, "" for the whole lesson
  #rows = make("div", { class: "settings-rows" });
  #which = choice([], "", (name) => {
    this.#section = name;
    this.#fill();
  });
  #focus = ""; // the field in which something was chosen last, by its key
  #asked = 0;

  constructor(lesson) {
    this.#lesson = lesson;
    this.#which.id = "settings-of";
    this.element = make(
      "details",
      { class: "settings", ontoggle: () => this.#fill() },
      make("summary", { id: "settings-summary" }, make("h2", {}, SAID.settings)),
      make("p", { class: "quiet" }, SAID.settings_say),
      make("div", { class: "tools" }, labelled(SAID.settings_of, this.#which)),
      this.#rows,
    );
  }

  stale(is) {
    this.#rows.inert = is;
    this.#which.disabled = is;
    this.#rows.classList.toggle("stale", is);
  }

  /** Another text was read: what is shown is asked for again. */
  show() {
    return this.#fill();
  }

  async #fill() {
    if (!this.#lesson.spec) this.#empty();
    if (!this.element.open || !this.#lesson.spec) return;
    this.#asked += 1;
    const turn = this.#asked;
    try {
      const asked = { section: this.#section };
      const { result } = await this.#lesson.ask("settings", asked, { instead: "settings" });
      if (turn !== this.#asked) return;
      this.#section = result.section;
      this.#listParts(result.sections);
      drawnAgain(this.#rows, () => put(this.#rows, this.#groups(result.settings)), this.#focus);
      this.#focus = "";
    } catch (error) {
      if (!error.problems) this.#lesson.sayWhy(error);
    }
  }

  /** Nothing is known of the lesson that was opened. */
  #empty() {
    this.#section = "";
    this.#listParts([]);
    put(this.#rows);
  }

  #listParts(sections) {
    const options = sections.map(({ name, heading, says }) => [name, SAID.settings_part(heading, says)]);
    this.#which.replaceChildren(
      ...[["", SAID.settings_whole], ...options].map(([value, words]) => make("option", { value }, words)),
    );
    this.#which.value = this.#section;
  }

  #groups(settings) {
    const names = [...new Set(settings.map(({ group }) => group))];
    return names.map((name) =>
      make(
        "section",
        { class: "settings-group", "aria-label": SAID.settings_groups[name] },
        make("h3", {}, SAID.settings_groups[name]),
        ...settings.filter(({ group }) => group === name).map((setting) => this.#row(setting)),
      ),
    );
  }

  #row(setting) {
    const { word, says, control, edit, given, questions, of } = setting;
    const key = `setting ${word}`;
    const why = make("p", { class: "why", role: "alert" });
    const said = make("p", { class: "row-says quiet", id: freshId("says") }, says);
    const about = aboutQuestions(questions, of);
    const count = make("span", { class: "settings-count quiet", id: freshId("count") }, about);
    const draw = () => {
      const made = controlOf(control.label, control, chosen, key);
      for (const one of [made, ...made.querySelectorAll("select, input")])
        if (one.matches("select, input, [role=group]"))
          one.setAttribute("aria-describedby", `${count.id} ${said.id}`);
      return made;
    };
    const chosen = async (value) => {
      this.#focus = document.activeElement?.dataset?.key ?? "";
      put(why);
      try {
        await this.#lesson.edit(edit, ...given, value);
      } catch (error) {
        drawnAgain(shown, () => put(shown, draw()), this.#focus);
        this.#focus = "";
        if (error.problems)
          put(why, problemsSaid(error.problems, { lines: false }));
        else this.#lesson.sayWhy(error);
      }
    };
    const shown = make("span", { class: "control" });
    shown.append(draw());
    const first = (control.parts[0] ?? control).choices[0];
    const unsaid = {
      some: () => !control.choices.some((one) => one.chosen),
      written: () => control.typed === "",
    }[control.kind] ?? (() => first.chosen);
    return make(
      "div",
      { class: unsaid() ? "row unsaid" : "row", data: { row: key } },
      make("span", { class: "row-word" }, control.label),
      make("span", { class: "settings-chosen" }, shown, count),
      said,
      why,
    );
  }
}

/** How many questions a setting is about, where it is about any. */
function aboutQuestions(questions, of) {
  if (questions === null) return null;
  return of === null ? SAID.questions(questions) : SAID.can_be_estimated(questions, of);
}
