// How many questions of each rung go into each part of the lesson: a table of numbers.

import { button, labelled, make, problemsSaid, put, wholeNumber } from "./elements.mjs";
import { drawnAgain } from "./redrawing.mjs";
import { WORDS, joined } from "./speaking.mjs";

const SAID = WORDS.lesson;
const MOST = 40;
const MOST_PAIRS = 6;
const MOST_MINUTES = 120;

export class Shares {
  #lesson;
  #body = make("div", { class: "shares-table" });
  #runs = make("ul", { class: "runs quiet", hidden: true });
  #ofTiers = make("div", { class: "tools" });
  #why = make("p", { class: "why", role: "alert" });

  constructor(lesson) {
    this.#lesson = lesson;
    const name = make("input", { size: 14, maxlength: 40 });
    const add = async () => {
      const first = this.#lesson.spec?.rungs[0];
      if (name.value && first && (await this.#edit("count", name.value, first.name, 1))) name.value = "";
    };
    this.#ofTiers.append(labelled(SAID.add_tier_name, name), button(SAID.add_tier, add, { id: "add-tier" }));
    this.element = make(
      "section",
      { class: "shares", "aria-label": SAID.parts },
      make("h2", {}, SAID.parts),
      make("p", { class: "quiet" }, SAID.parts_say),
      this.#body,
      this.#runs,
      this.#ofTiers,
      this.#why,
    );
  }

  stale(is) {
    this.element.inert = is;
    this.element.classList.toggle("stale", is);
  }

  /** Show the parts of a lesson that was read; null where nothing of it could be. */
  show(spec) {
    this.#ofTiers.hidden = !spec?.in_short;
    if (spec === null) {
      put(this.#body);
      this.#runs.hidden = true;
      return;
    }
    const parts = spec.parts.map((part) => ({
      ...part,
      words: part.heading,
      most: part.pairs ? MOST_PAIRS : MOST,
      isTier: part.tier,
    }));
    this.#showRuns(spec);
    const count = (part, rung) =>
      part.shares.find((share) => share.rung === rung.name)?.count ?? 0;
    const head = parts.map((part) => make("th", { scope: "col", lang: this.#lesson.language }, part.words));
    const rows = spec.rungs.map((rung) => {
      const cells = parts.map((part) => {
        const field = wholeNumber(
          count(part, rung),
          0,
          part.most,
          (number) => this.#edit("count", part.name, rung.name, number),
          {
            "aria-label": SAID.count_of(this.#lesson.called(rung.name), part.words),
            data: { key: `${rung.name} ${part.name}` },
            class: count(part, rung) ? "" : "nought",
          },
        );
        return make("td", {}, field);
      });
      return make("tr", {}, make("th", { scope: "row" }, this.#lesson.called(rung.name)), ...cells);
    });
    const totals = parts.map((part) =>
      make("td", { class: "total" }, String(spec.rungs.reduce((sum, rung) => sum + count(part, rung), 0))),
    );
    const minutes = parts.map((part) => this.#minutes(part));
    const findsOut = parts.map((part) => this.#findsOut(part));
    const last = parts.map((part) =>
      make(
        "td",
        {},
        part.isTier
          ? button(SAID.remove, () => this.#edit("remove tier", part.name), {
              "aria-label": SAID.remove_tier(part.words),
              data: { key: `remove ${part.name}` },
            })
          : null,
      ),
    );
    const table = make(
      "table",
      {},
      make("thead", {}, make("tr", {}, make("th", { scope: "col" }, SAID.rung), ...head)),
      make(
        "tbody",
        {},
        ...rows,
        make("tr", {}, make("th", { scope: "row" }, SAID.all), ...totals),
        make("tr", {}, make("th", { scope: "row" }, SAID.minutes), ...minutes),
        make("tr", {}, make("th", { scope: "row", title: SAID.finds_out_say }, SAID.finds_out), ...findsOut),
        make("tr", {}, make("td", {}), ...last),
      ),
    );
    drawnAgain(this.#body, () => put(this.#body, table));
  }

  /** Under the table each run, with how many numbers serve all its rungs. */
  #showRuns({ runs, parts }) {
    const headings = new Map(parts.map(({ name, heading }) => [name, heading]));
    const said = runs.map(({ section, rungs, says }) => [
      SAID.run(headings.get(section), rungs.map((name) => this.#lesson.called(name))),
      joined([says, "."]),
    ]);
    this.#runs.replaceChildren(...said.map((words) => make("li", {}, ...words)));
    this.#runs.hidden = runs.length === 0;
  }

  #minutes(part) {
    if (part.pairs || part.shares.length === 0) return make("td", {});
    const field = make("input", {
      type: "number",
      min: 1,
      max: MOST_MINUTES,
      "aria-label": SAID.minutes_of(part.words),
      data: { key: `minutes ${part.name}` },
    });
    field.value = field.defaultValue = part.minutes ?? "";
    field.addEventListener("change", () =>
      this.#edit("minutes", part.name, field.value === "" ? null : Number(field.value)),
    );
    return make("td", {}, field);
  }

  /** Whether the part's questions are chosen to find out habits. */
  #findsOut(part) {
    if (part.pairs || part.shares.length === 0) return make("td", {});
    const box = make("input", {
      type: "checkbox",
      checked: part.finds_out,
      "aria-label": SAID.finds_out_in(part.words),
      data: { key: `finds out ${part.name}` },
      onchange: () => this.#edit("find out", part.name, box.checked),
    });
    return make("td", {}, box);
  }

  async #edit(...change) {
    put(this.#why);
    try {
      await this.#lesson.edit(...change);
      return true;
    } catch (error) {
      if (this.#lesson.spec) this.show(this.#lesson.spec);
      if (error.problems)
        put(this.#why, problemsSaid(error.problems, { lines: false }));
      else this.#lesson.sayWhy(error);
      return false;
    }
  }
}
