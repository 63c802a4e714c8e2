// A grid that is typed into with keys alone: arrows, Enter down, Tab right, Esc out of it.

import { make } from "./elements.mjs";
import { attribute } from "./speaking.mjs";

const MOVES = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
  PageUp: [-10, 0],
  PageDown: [10, 0],
};

export class Grid {
  #cells = []; // inputs, by row
  #at = { row: 0, column: 0 };
  #home = 0; // the column to which Enter goes back
  #editing = false;
  #told = null;

  /**
   * `heads` are rows of [words, columns across]; `told` has
   * {value(row, column), label(row, column), typed(row, column, text), left(row, column),
   *  reached(row, column), pasted(row, column, text), out()}.
   */
  constructor(heads, columns, first, told) {
    this.#told = told;
    this.columns = columns;
    this.#home = first;
    this.#at.column = first;
    this.body = make("tbody");
    this.table = make(
      "table",
      { class: "marks-grid" },
      make("thead", {}, ...heads.map((head) => make("tr", {}, ...head.map(headed)))),
      this.body,
    );
    this.table.addEventListener("keydown", (event) => this.#pressed(event));
    this.table.addEventListener("input", (event) => this.#typed(event));
    this.table.addEventListener("focusin", (event) => this.#reached(event));
    this.table.addEventListener("focusout", (event) => this.#left(event));
    this.table.addEventListener("paste", (event) => this.#pasted(event));
    this.table.addEventListener("dblclick", () => this.#edit(true));
  }

  /** Have so many rows, each cell as it is now. */
  show(rows) {
    while (this.#cells.length > rows) this.#cells.pop()[0].closest("tr").remove();
    while (this.#cells.length < rows) this.#add(this.#cells.length);
    for (let row = 0; row < rows; row += 1)
      for (let column = 0; column < this.columns; column += 1) this.refresh(row, column);
    this.#rove(Math.min(this.#at.row, rows - 1), this.#at.column);
  }

  #add(row) {
    const inputs = Array.from({ length: this.columns }, (_, column) =>
      make("input", {
        type: "text",
        autocomplete: "off",
        spellcheck: "false",
        tabindex: -1,
        "aria-label": this.#told.label(row, column),
        data: { row, column },
      }),
    );
    this.#cells.push(inputs);
    this.body.append(make("tr", {}, ...inputs.map((input) => make("td", {}, input))));
  }

  refresh(row, column) {
    const input = this.#cells[row][column];
    const value = this.#told.value(row, column);
    if (input.value !== value) input.value = value;
  }

  /** Say what is wrong with which cells: [{row, at, what}]. */
  mark(problems) {
    for (const input of this.table.querySelectorAll("[aria-invalid]")) {
      input.removeAttribute("aria-invalid");
      input.removeAttribute("title");
    }
    for (const { row, at, what } of problems) {
      const input = this.#cells[row]?.[at];
      input?.setAttribute("aria-invalid", "true");
      if (input) attribute(input, "title", what);
    }
  }

  /** Show which rows are not marked, with words in a cell of theirs while it is empty. */
  leave(rows, column, words) {
    const left = new Set(rows);
    this.#cells.forEach((inputs, row) => {
      inputs[column].closest("tr").classList.toggle("not-marked", left.has(row));
      if (left.has(row)) attribute(inputs[column], "placeholder", words);
      else inputs[column].removeAttribute("placeholder");
    });
  }

  focus(row = this.#at.row, column = this.#at.column) {
    this.#cells[row]?.[column]?.focus();
  }

  #rove(row, column) {
    const before = this.#cells[this.#at.row]?.[this.#at.column];
    if (before) before.tabIndex = -1;
    this.#at = { row: Math.max(0, row), column };
    const now = this.#cells[this.#at.row]?.[column];
    if (now) now.tabIndex = 0;
  }

  #edit(whether) {
    this.#editing = whether;
  }

  #go(row, column) {
    const there = this.#cells[Math.max(0, Math.min(row, this.#cells.length - 1))];
    there?.[Math.max(0, Math.min(column, this.columns - 1))].focus();
  }

  #pressed(event) {
    const { key, shiftKey, ctrlKey, altKey, metaKey } = event;
    if (altKey || metaKey || event.isComposing) return;
    const { row, column } = this.#at;
    const sideways = key === "ArrowLeft" || key === "ArrowRight";
    if (key === "F2") this.#edit(!this.#editing);
    else if (ctrlKey && key === "Home") this.#go(0, this.#home);
    else if (ctrlKey && key === "End") this.#go(this.#cells.length - 1, this.columns - 1);
    else if (ctrlKey || (this.#editing && (sideways || key === "Home" || key === "End"))) return;
    else if (key === "Escape") this.#told.out();
    else if (key === "Enter") this.#go(row + (shiftKey ? -1 : 1), this.#home);
    else if (key === "Tab") {
      if (!this.#tab(row, column, shiftKey ? -1 : 1)) return;
    } else if (key === "Home") this.#home = this.#moved(row, 0);
    else if (key === "End") this.#home = this.#moved(row, this.columns - 1);
    else if (Object.hasOwn(MOVES, key) && !shiftKey) {
      const [down, right] = MOVES[key];
      this.#home = this.#moved(row + down, column + right);
    } else return;
    event.preventDefault();
  }

  #moved(row, column) {
    this.#go(row, column);
    return this.#at.column;
  }

  /** On to the next cell, over the end of a row; false where there is none, and Tab leaves. */
  #tab(row, column, by) {
    const next = column + by;
    if (next >= 0 && next < this.columns) this.#go(row, next);
    else if (this.#cells[row + by]) this.#go(row + by, by > 0 ? 0 : this.columns - 1);
    else return false;
    return true;
  }

  #place(event) {
    const { row, column } = event.target.dataset;
    return row === undefined ? null : [Number(row), Number(column)];
  }

  #typed(event) {
    const place = this.#place(event);
    if (place) this.#told.typed(...place, event.target.value);
  }

  #reached(event) {
    const place = this.#place(event);
    if (!place) return;
    this.#edit(false);
    this.#rove(...place);
    event.target.select();
    this.#told.reached(...place);
  }

  #left(event) {
    const place = this.#place(event);
    if (place) this.#told.left(...place);
  }

  #pasted(event) {
    const place = this.#place(event);
    const text = event.clipboardData?.getData("text/plain") ?? "";
    if (!place || !/[\t\r\n]/.test(text.trim())) return;
    event.preventDefault();
    this.#told.pasted(...place, text);
  }
}

function headed([words, across = 1]) {
  if (!words) return make("td", {});
  return make("th", { scope: across > 1 ? "colgroup" : "col", colspan: across }, words);
}
