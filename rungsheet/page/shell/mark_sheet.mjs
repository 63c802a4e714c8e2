// A mark sheet as it is typed: a row a pupil, in which blank means right.
//
// Its cells are, in order: the pupil's number; which practice sheet the pupil had, or that the
// pupil was away; the questions of what all pupils have, as of the starter; the questions of
// whichever practice sheet it was.
// As a file it is the pack's marks.csv, in which right is y, blank means left out, and the row of a
// pupil who was away says so.

import { WORDS } from "./words.mjs";

const SAID = WORDS.marks;
export const [PUPIL, SHEET, FIRST] = [0, 1, 2];
const RIGHT = new Set(["", "y", "yes", "✓", "✔"]);
const AWAY = new Set(["-", "–", "absent", "abs", "away", "ill"]);
const LEFT_OUT = "-";
const ABSENT = "absent"; // as the engine reads it, in whatever language the page speaks

export class MarkSheet {
  /** `grid` is the answer of the job of that name. */
  constructor({ code, columns }) {
    this.code = code;
    this.columns = columns;
    this.starter = columns.filter(({ to_all }) => to_all);
    const practice = columns.filter(({ to_all }) => !to_all);
    /** The practice sheets: their columns by their names. */
    this.sheets = Map.groupBy ? Map.groupBy(practice, ({ sheet }) => sheet) : grouped(practice);
    this.longest = Math.max(0, ...[...this.sheets.values()].map((one) => one.length));
    this.rows = [];
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
    while (this.rows.length > pupils && !isTyped(this.rows.at(-1))) this.rows.pop();
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

  /** The sheet that is meant by what was typed: its name or the beginning of it, and the version. */
  sheetOf(typed) {
    const names = [...this.sheets.keys()];
    const plain = typed.trim().toLowerCase().replace(/[\s.]+/g, ".");
    if (plain === "") return names.length === 1 ? names[0] : null;
    if (this.sheets.has(plain)) return plain;
    const [, letters, version] = /^(.*?)\.?(\d*)$/.exec(plain);
    const found = names.filter((name) => {
      const [, tier, number] = /^(.*?)(?:\.(\d+))?$/.exec(name);
      return tier.startsWith(letters) && (version === (number ?? "") || version === (number ?? "1"));
    });
    return found.length === 1 ? found[0] : null;
  }

  /** What was typed, as it is shown when the cell is left. */
  tidied(at, typed) {
    if (at !== SHEET) return typed.trim();
    if (AWAY.has(typed.trim().toLowerCase())) return SAID.away;
    const sheet = typed.trim() && this.sheetOf(typed);
    return sheet ? SAID.sheet(sheet) : typed.trim();
  }

  /** Write something into a cell; gives the cells that are others now. */
  write(row, at, typed) {
    if (at >= FIRST && AWAY.has(typed.trim().toLowerCase()) && typed.trim().length > 1) {
      this.rows[row][at] = "";
      this.rows[row][SHEET] = SAID.away;
      return [at, SHEET];
    }
    this.rows[row][at] = this.tidied(at, typed);
    return [at];
  }

  /** Whether anything is there to be marked. */
  get isTyped() {
    return this.rows.some(isTyped);
  }

  /** The pupils whose practice sheet is not known, by their rows. */
  get withoutSheet() {
    if (this.sheets.size < 2) return [];
    return this.rows.flatMap((row, at) => (row[PUPIL].trim() && !row[SHEET].trim() ? [at] : []));
  }

  /**
   * The sheet as the text of marks.csv, where in the grid each of its cells stands ("2:core.a"
   * and "2:" for the whole row), and what cannot be written there: [{row, at, what}].
   */
  get file() {
    const names = this.columns.map(({ name }) => name);
    const merged = new Map();
    const unclear = [];
    this.rows.forEach((cells, row) => {
      if (!isTyped(cells) && !cells[PUPIL].trim()) return;
      const key = cells[PUPIL].trim().toLowerCase() || `row ${row}`;
      if (!merged.has(key)) merged.set(key, { row, pupil: cells[PUPIL].trim(), cells: new Map() });
      if (!this.isAway(row)) this.#add(row, merged.get(key).cells, unclear);
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
    if (typed[SHEET].trim() && sheet === null)
      unclear.push({ row, at: SHEET, what: SAID.no_sheet(typed[SHEET], this.sheetNames) });
    else if (further >= 0 && sheet === null && this.sheets.size > 0)
      unclear.push({ row, at: SHEET, what: SAID.which_sheet(this.sheetNames) });
    else if (further >= 0)
      unclear.push({ row, at: FIRST + had.length + further, what: SAID.no_question });
  }

  get sheetNames() {
    return [...this.sheets.keys()].map(SAID.sheet);
  }

  /** Take in the rows of a file (the job "typed"): a pupil with two practice sheets has two rows. */
  take(pupils) {
    this.rows = pupils.flatMap(({ pupil, cells }) => this.#rows(pupil, cells));
    const anyone = pupils.some(({ cells }) => Object.keys(cells).length > 0);
    if (!anyone) for (const row of this.rows) row[SHEET] = "";
  }

  #rows(pupil, cells) {
    const shown = (columns) => {
      const none = columns.every(({ name }) => cells[name] === undefined);
      return { none, texts: columns.map(({ name }) => shownCell(cells[name])) };
    };
    const starter = shown(this.starter);
    const had = [...this.sheets].filter(([, columns]) => !shown(columns).none);
    if (starter.none && had.length === 0) return [this.#padded([pupil, SAID.away])];
    if (had.length === 0) return [this.#padded([pupil, "", ...starter.texts])];
    return had.map(([sheet, columns], at) => {
      const texts = at === 0 ? starter.texts : this.starter.map(() => "");
      const named = this.sheets.size === 1 ? "" : SAID.sheet(sheet);
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

function isTyped(row) {
  return row.slice(SHEET).some((cell) => cell.trim() !== "");
}

/** A cell of a file, in which nothing means left out, as the grid has it. */
function shownCell(text) {
  if (text === undefined) return LEFT_OUT;
  return RIGHT.has(text.toLowerCase()) ? "" : text;
}

function quoted(text) {
  return /[",;\r\n\t]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
