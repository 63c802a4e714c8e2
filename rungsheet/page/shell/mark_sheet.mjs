// A mark sheet as it is typed: a row a pupil, in which blank means right.
//
// A pupil whose row nobody has touched is not marked, which is another thing than all right. A row
// is marked by what is typed in it, by cells of questions that are pasted there, blank ones too, and
// by a tick in its second cell where all was right; a sheet that was given to many pupils at once,
// or pasted, marks none of them.
//
// Its cells are, in order: the pupil's number; which practice sheet the pupil had, or that the
// pupil was away; the questions of what all pupils have, as of the starter; the questions of
// whichever practice sheet it was.
// As a file it is the pack's marks.csv, in which right is y, blank means left out, and the row of a
// pupil who was away says so.

import { WORDS } from "./speaking.mjs";

const SAID = WORDS.marks;
export const [PUPIL, SHEET, FIRST] = [0, 1, 2];
const RIGHT = new Set(["", "y", "yes", "j", "ja", "✓", "✔"]);
const AWAY = new Set(["-", "–", "absent", "abs", "away", "ill", "abwesend", "fehlt", "krank"]);
const TICK = "✓";
const LEFT_OUT = "-";
const IN_VERSIONS = /^(.*?)((?:\.\d+)?)$/;
const VERSION = /^(.*?) ?(\d*)$/;
const ABSENT = "absent"; // as the engine reads it and as it is kept here, in any language of the page

export class MarkSheet {
  #spelt; // how each practice sheet may be spelt in the second cell, as it is called there first

  /** `grid` is the answer of the job of that name. */
  constructor({ code, columns }) {
    this.code = code;
    this.columns = columns;
    this.starter = columns.filter(({ to_all }) => to_all);
    const practice = columns.filter(({ to_all }) => !to_all);
    /** The practice sheets: their columns by their names. */
    this.sheets = Map.groupBy ? Map.groupBy(practice, ({ sheet }) => sheet) : grouped(practice);
    this.#spelt = spellings(this.sheets);
    this.longest = Math.max(0, ...[...this.sheets.values()].map((one) => one.length));
    this.rows = [];
    /** Rows that were ticked, or whose questions were pasted or opened, though all may be right. */
    this.seen = new WeakSet();
    /** Rows whose sheet was given to many pupils at once, or pasted. */
    this.given = new WeakSet();
    /** What stood in the second cell of a row when it was last left. */
    this.sheetBefore = new WeakMap();
  }

  /** What stands over the questions that all pupils have: [heading, how many columns]. */
  get heads() {
    return [...grouped(this.starter).values()].map((one) => [one[0].heading, one.length]);
  }

  get width() {
    return FIRST + this.starter.length + this.longest;
  }

  /** So many pupils: rows are added, and those at the end that are empty taken away. */
  number(pupils) {
    while (this.rows.length < pupils) {
      const row = new Array(this.width).fill("");
      row[PUPIL] = String(this.rows.length + 1);
      this.rows.push(row);
    }
    while (this.rows.length > pupils && !this.#marks(this.rows.at(-1))) this.rows.pop();
  }

  /** Whether a pupil's row is marked, or was away: whether it counts. */
  isMarked(row) {
    return this.#marks(this.rows[row]);
  }

  #marks(cells) {
    if (this.seen.has(cells) || cells.slice(FIRST).some((cell) => cell.trim() !== "")) return true;
    return cells[SHEET].trim() !== "" && !this.given.has(cells);
  }

  /** The pupils who are not marked, by their rows. */
  get notMarked() {
    return this.rows.flatMap((row, at) => (row[PUPIL].trim() && !this.#marks(row) ? [at] : []));
  }

  /** Say that all was right in a row, but for what is typed there. */
  tick(row) {
    const cells = this.rows[row];
    this.seen.add(cells);
    if (this.sheets.size < 2 && !cells[SHEET].trim()) cells[SHEET] = TICK;
    this.sheetBefore.set(cells, cells[SHEET]);
  }

  /** Give a pupil a sheet, as many are given one at once. */
  give(row, sheet) {
    this.rows[row][SHEET] = this.called(sheet);
    this.sheetBefore.set(this.rows[row], this.rows[row][SHEET]);
    this.given.add(this.rows[row]);
  }

  /** The letters over a cell's column. */
  letter(at) {
    if (at < FIRST + this.starter.length) return this.starter[at - FIRST].label;
    const widest = [...this.sheets.values()].find((one) => one.length === this.longest);
    return widest[at - FIRST - this.starter.length].label;
  }

  isPractice(at) {
    return at >= FIRST + this.starter.length;
  }

  /** The question that a cell is for; null where it is not known which, or there is none. */
  question(row, at) {
    if (at < FIRST) return null;
    if (!this.isPractice(at)) return this.starter[at - FIRST];
    const sheet = this.sheetOf(this.rows[row][SHEET]);
    return this.sheets.get(sheet)?.[at - FIRST - this.starter.length] ?? null;
  }

  isAway(row) {
    return AWAY.has(this.rows[row][SHEET].trim().toLowerCase());
  }

  /**
   * What a practice sheet is called: as pupils see it, without the words that all of them have
   * ("Grundlagen" of "Übung Grundlagen"), where the teacher has named them so; else by its name.
   */
  called(sheet) {
    return this.#spelt.get(sheet)?.[0] ?? inWords(sheet);
  }

  /** What a question is called, as its sheet is: "Grundlagen c", or "core 2 c". */
  nameOf({ name, sheet, called, label }) {
    if (!called) return inWords(name);
    return `${called}${inWords(IN_VERSIONS.exec(sheet)[2])} ${label}`;
  }

  /**
   * The sheet that is meant by what was typed: what it is called, or its name, or the beginning of
   * one of them, and the version; null where that may be several.
   */
  sheetOf(typed) {
    const names = [...this.sheets.keys()];
    const plain = inWords(typed.trim().toLowerCase().replace(/[\s.]+/g, "."));
    if (plain === "" || plain === TICK) return names.length === 1 ? names[0] : null;
    const spelt = (name) => this.#spelt.get(name).map((one) => one.toLowerCase());
    const exact = names.find((name) => spelt(name)[0] === plain) ?? names.find((name) => spelt(name).includes(plain));
    if (exact) return exact;
    const [, letters, version] = VERSION.exec(plain);
    const found = names.filter((name) =>
      spelt(name).some((one) => {
        const [, tier, number] = VERSION.exec(one);
        return tier.startsWith(letters) && (version === number || version === (number || "1"));
      }),
    );
    return found.length === 1 ? found[0] : null;
  }

  /** Whether what was typed in the second cell is a tick, and no sheet is called so. */
  #isTick(typed) {
    const plain = typed.trim().toLowerCase();
    if (plain === "" || !RIGHT.has(plain)) return false;
    return this.sheets.size < 2 || this.sheetOf(plain) === null;
  }

  /** What was typed, as it is shown when the cell is left. */
  tidied(at, typed) {
    if (at !== SHEET) return typed.trim();
    if (AWAY.has(typed.trim().toLowerCase())) return ABSENT;
    const sheet = typed.trim() && this.sheetOf(typed);
    return sheet ? this.called(sheet) : typed.trim();
  }

  /** A cell as the grid shows it: that a pupil was away, in the page's language. */
  shown(row, at) {
    const text = this.rows[row][at];
    return at === SHEET && text === ABSENT ? String(SAID.away) : text;
  }

  /** Write something into a cell; gives the cells that are others now. */
  write(row, at, typed) {
    if (at >= FIRST && AWAY.has(typed.trim().toLowerCase()) && typed.trim().length > 1) {
      this.rows[row][at] = "";
      this.rows[row][SHEET] = ABSENT;
      return [at, SHEET];
    }
    if (at === SHEET) this.#writeSheet(this.rows[row], row, typed);
    else this.rows[row][at] = this.tidied(at, typed);
    return [at];
  }

  /** Write what was pasted into a row, from a cell on: who has which sheet marks nobody. */
  paste(row, at, texts) {
    const cells = this.rows[row];
    const wasMarked = this.#marks(cells);
    texts.slice(0, this.width - at).forEach((text, right) => this.write(row, at + right, text));
    if (at + texts.length > FIRST) this.seen.add(cells);
    else if (!wasMarked && !this.isAway(row)) this.given.add(cells);
  }

  #writeSheet(cells, row, typed) {
    const before = this.sheetBefore.get(cells) ?? "";
    if (this.#isTick(typed)) {
      cells[SHEET] = before === ABSENT ? "" : before;
      this.tick(row);
      return;
    }
    cells[SHEET] = this.tidied(SHEET, typed);
    if (cells[SHEET] === before) return; // left as it was
    this.given.delete(cells);
    if (cells[SHEET] === "") this.seen.delete(cells);
    this.sheetBefore.set(cells, cells[SHEET]);
  }

  /** Whether any pupil is marked. */
  get isTyped() {
    return this.rows.some((cells) => this.#marks(cells));
  }

  /** The pupils whose practice sheet is not known, by their rows. */
  get withoutSheet() {
    if (this.sheets.size < 2) return [];
    return this.rows.flatMap((row, at) => (row[PUPIL].trim() && !row[SHEET].trim() ? [at] : []));
  }

  /** The sheet as marks.csv is kept: who is not marked has a row in which nothing stands. */
  get kept() {
    return this.#written(true).text;
  }

  /**
   * The pupils who are marked as the text of marks.csv, where in the grid each of its cells stands
   * ("2:core.a" and "2:" for the whole row), and what cannot be written there: [{row, at, what}].
   */
  get file() {
    return this.#written(false);
  }

  #written(whole) {
    const names = this.columns.map(({ name }) => name);
    const merged = new Map();
    const unclear = [];
    this.rows.forEach((cells, row) => {
      const marked = this.#marks(cells);
      if (!marked && (!whole || !cells[PUPIL].trim())) return;
      const key = cells[PUPIL].trim().toLowerCase() || `row ${row}`;
      if (!merged.has(key)) merged.set(key, { row, pupil: cells[PUPIL].trim(), cells: new Map() });
      if (marked && !this.isAway(row)) this.#add(row, merged.get(key).cells, unclear);
    });
    const places = new Map();
    const lines = [[`pupil (${this.code})`, ...names]];
    for (const { row, pupil, cells } of merged.values()) {
      const line = lines.length + 1;
      places.set(`${line}:`, { row, at: PUPIL });
      for (const [name, cell] of cells) places.set(`${line}:${name}`, cell);
      const away = cells.size === 0 && this.isAway(row);
      lines.push([pupil, ...names.map((name, at) => cells.get(name)?.text ?? (away && at === 0 ? ABSENT : ""))]);
    }
    const text = lines.map((cells) => `${cells.map(quoted).join(",")}\r\n`).join("");
    return { text, places, unclear };
  }

  #add(row, cells, unclear) {
    const typed = this.rows[row];
    const sheet = this.sheetOf(typed[SHEET]);
    const practice = this.sheets.get(sheet) ?? [];
    const had = [...this.starter, ...practice];
    had.forEach((column, index) => {
      const at = FIRST + index;
      const text = typed[at].trim();
      if (cells.has(column.name) && text === "") return;
      const plain = RIGHT.has(text.toLowerCase()) ? "y" : text === LEFT_OUT ? "" : text;
      cells.set(column.name, { row, at, text: plain });
    });
    const further = typed.slice(FIRST + had.length).findIndex((text) => text.trim() !== "");
    if (typed[SHEET].trim() && typed[SHEET] !== TICK && sheet === null)
      unclear.push({ row, at: SHEET, what: SAID.no_sheet(typed[SHEET], this.sheetNames) });
    else if (further >= 0 && sheet === null && this.sheets.size > 0)
      unclear.push({ row, at: SHEET, what: SAID.which_sheet(this.sheetNames) });
    else if (further >= 0)
      unclear.push({ row, at: FIRST + had.length + further, what: SAID.no_question });
  }

  get sheetNames() {
    return [...this.#spelt.values()].map(([called]) => called);
  }

  /**
   * Take in the rows of a file (the job "typed"): a pupil with two practice sheets has two rows,
   * and who has no mark in it is not marked here either.
   */
  take(pupils) {
    this.rows = pupils.flatMap(({ pupil, cells, absent }) => {
      const rows = this.#rows(pupil, cells, absent);
      for (const row of rows) {
        if (absent || Object.keys(cells).length > 0) this.seen.add(row);
        this.sheetBefore.set(row, row[SHEET]);
      }
      return rows;
    });
  }

  #rows(pupil, cells, absent) {
    const shown = (columns) => {
      const none = columns.every(({ name }) => cells[name] === undefined);
      return { none, texts: columns.map(({ name }) => shownCell(cells[name])) };
    };
    const starter = shown(this.starter);
    const had = [...this.sheets].filter(([, columns]) => !shown(columns).none);
    if (starter.none && had.length === 0) return [this.#padded([pupil, absent ? ABSENT : ""])];
    if (had.length === 0) return [this.#padded([pupil, "", ...starter.texts])];
    return had.map(([sheet, columns], at) => {
      const texts = at === 0 ? starter.texts : this.starter.map(() => "");
      const named = this.sheets.size === 1 ? "" : this.called(sheet);
      return this.#padded([pupil, named, ...texts, ...shown(columns).texts]);
    });
  }

  #padded(cells) {
    return [...cells, ...new Array(Math.max(0, this.width - cells.length)).fill("")];
  }
}

function grouped(columns) {
  const found = new Map();
  for (const column of columns) {
    if (!found.has(column.sheet)) found.set(column.sheet, []);
    found.get(column.sheet).push(column);
  }
  return found;
}

/** The name of a sheet as it is typed: "core 2" of "core.2". */
function inWords(name) {
  return name.replaceAll(".", " ");
}

/** How sheets may be spelt, by their names: as the narrow cell has it first. */
function spellings(sheets) {
  return new Map(
    [...sheets].map(([name, [{ called, heading }]]) => {
      const [, tier, version] = IN_VERSIONS.exec(name);
      const all = called ? [called, tier, heading] : [tier];
      return [name, all.map((one) => one + inWords(version))];
    }),
  );
}

/** A cell of a file, in which nothing means left out, as the grid has it. */
function shownCell(text) {
  if (text === undefined) return LEFT_OUT;
  return RIGHT.has(text.toLowerCase()) ? "" : text;
}

function quoted(text) {
  return /[",;\r\n\t]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
