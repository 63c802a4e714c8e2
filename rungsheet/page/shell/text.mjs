// The text of the spec, with the numbers of its lines, and what is to be put right in them.

import { button, make, problemSaid } from "./elements.mjs";
import { WORDS } from "./speaking.mjs";

const SAID = WORDS.lesson;

export class SpecText {
  #lesson;
  #field = make("textarea", {
    id: "spec-text",
    spellcheck: "false",
    autocapitalize: "off",
    autocomplete: "off",
    wrap: "off",
    "aria-label": SAID.text_label,
    "aria-describedby": "spec-problems",
  });
  #numbers = make("div", { class: "line-numbers", "aria-hidden": "true" });
  #problems = make("div", { id: "spec-problems", role: "status" });

  constructor(lesson) {
    this.#lesson = lesson;
    this.#field.addEventListener("input", () => {
      this.#lesson.change({ text: this.#field.value }, { typed: true });
      this.#number();
    });
    this.#field.addEventListener("scroll", () => {
      this.#numbers.scrollTop = this.#field.scrollTop;
    });
    this.element = make(
      "section",
      { class: "spec", "aria-label": SAID.text_label },
      this.#problems,
      make("div", { class: "spec-lines" }, this.#numbers, this.#field),
    );
  }

  /** Show the text as it is now; the place in it that was looked at stays. */
  show() {
    if (this.#field.value === this.#lesson.text) return;
    const { scrollTop, selectionStart } = this.#field;
    this.#field.value = this.#lesson.text;
    this.#field.setSelectionRange(selectionStart, selectionStart);
    this.#field.scrollTop = scrollTop;
    this.#number();
  }

  /** Show what is to be put right: each with its line, which is marked. */
  complain(problems) {
    const made = problems.map((problem) =>
      make(
        "li",
        {},
        problem.line
          ? button(problemSaid(problem), () => this.#go(problem.line), { class: "problem" })
          : problemSaid(problem),
      ),
    );
    this.#problems.replaceChildren(
      ...(made.length
        ? [make("h2", {}, SAID.problems), make("ul", { class: "problems" }, ...made)]
        : []),
    );
    const lines = new Set(problems.map(({ line }) => line));
    [...this.#numbers.children].forEach((number, at) => {
      number.classList.toggle("wrong", lines.has(at + 1));
    });
  }

  #number() {
    const lines = this.#field.value.split("\n").length;
    while (this.#numbers.children.length > lines) this.#numbers.lastChild.remove();
    while (this.#numbers.children.length < lines)
      this.#numbers.append(make("span", {}, String(this.#numbers.children.length + 1)));
    this.#numbers.scrollTop = this.#field.scrollTop;
  }

  /** Put the caret on a line. */
  #go(line) {
    const lines = this.#field.value.split("\n");
    const start = lines.slice(0, line - 1).join("\n").length + (line > 1 ? 1 : 0);
    this.#field.focus();
    this.#field.setSelectionRange(start, start + (lines[line - 1] ?? "").length);
    const height = this.#field.scrollHeight / lines.length;
    this.#field.scrollTop = Math.max(0, (line - 5) * height);
  }
}
