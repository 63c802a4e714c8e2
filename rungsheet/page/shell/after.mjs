// Marks: after the lesson. What was wrong is typed, and what it says stands beside it.
//
// Marks are pupils' data: they are in this module's memory and nowhere else, until they are saved
// as a file or forgotten.

import { button, fromEngine, labelled, make, problemSaid, put, wholeNumber, wrongSaid } from "./elements.mjs";
import { findings, unread } from "./findings.mjs";
import { Grid } from "./grid.mjs";
import { FIRST, MarkSheet, PUPIL, SHEET } from "./mark_sheet.mjs";
import { bytesOf, opener, save, takesDropped } from "./saving.mjs";
import { WORDS, joined, whenSpoken } from "./speaking.mjs";

const SAID = WORDS.marks;
const [CLASS, MOST_PUPILS] = [28, 500];
const LARGEST = 12_000_000; // bytes of a file of marks (specs/marks.py)
const PAUSE = 400; // milliseconds without typing, before the marks are read

let lesson = null;
let parts = null;
let pack = null; // what the marks are of: {text, name, seed, versions, title}
let sheet = null;
let grid = null;
let pupils = CLASS;
let problems = []; // of cells: {row, at, where, what}
let waiting = 0;
let kept = null; // marks.csv as it was last saved or opened
let read = 0; // which reading of the marks is the last
let taken = 0; // and which mark sheet that was opened

export function open(section, shown) {
  lesson = shown;
  parts ??= build(section);
  lesson.addEventListener("change", told);
  lesson.addEventListener("read", told);
  told();
}

export function close() {
  lesson.removeEventListener("change", told);
  lesson.removeEventListener("read", told);
}

function build(host) {
  const number = wholeNumber(pupils, 1, MOST_PUPILS, numbered, { id: "pupils" });
  const begin = button(SAID.begin, () => started(), { id: "begin-marks" });
  const file = opener(SAID.open, ".csv,.txt,.tsv", opened, { id: "open-marks" });
  const forget = button(SAID.forget, forgotten, { id: "forget", disabled: true });
  const of = make("p", { class: "of" });
  const other = make("div", { class: "tools", hidden: true });
  const replacing = make("div", { class: "tools", role: "alert", hidden: true });
  const refused = make("ul", { class: "problems", "aria-label": SAID.unread });
  const all = make("div", { class: "tools", hidden: true });
  const left = make("span", { id: "not-marked", role: "status" });
  const rest = make(
    "div",
    { class: "tools", hidden: true },
    left,
    button(SAID.rest_right, restRight, { id: "rest-right" }),
  );
  const shown = make("p", { class: "cell", role: "status" });
  const table = make("div", { class: "table" });
  const saves = make(
    "div",
    { class: "tools", role: "group", "aria-label": SAID.save },
    button(SAID.save_pdf, savePdf, { id: "save-marks-pdf" }),
    button(SAID.save_csv, saveCsv, { id: "save-marks-csv" }),
  );
  const asked = wholeNumber(6, 1, 40, () => {}, { id: "follow-questions" });
  const tomorrow = make(
    "div",
    { class: "tools", role: "group", "aria-label": SAID.tomorrow },
    button(SAID.tomorrow, () => followed(Number(asked.value)), { id: "tomorrow" }),
    labelled(SAID.tomorrow_questions, asked),
  );
  const cells = make("ul", { class: "problems", id: "unread" });
  const says = make("div", { id: "findings" });
  const head = make(
    "div",
    { class: "head" },
    make("p", {}, SAID.privacy),
    make("div", { class: "tools" }, labelled(SAID.pupils, number), begin, file, forget, of),
    other,
    replacing,
    refused,
  );
  const typing = make(
    "div",
    { class: "typing", hidden: true },
    make("p", { class: "quiet" }, SAID.how),
    all,
    rest,
    shown,
    table,
  );
  const found = make("div", { class: "found", hidden: true }, saves, tomorrow, cells, says);
  host.append(head, make("div", { class: "both" }, typing, found));
  takesDropped(host, opened);
  whenSpoken(() => {
    if (sheet) grid.show(sheet.rows.length);
  });
  globalThis.addEventListener("beforeunload", (event) => {
    if (!isSaved()) event.preventDefault();
  });
  return {
    ...{ number, begin, forget, of, other, replacing, refused, all, left, rest, shown, table, cells, says, typing, found },
  };
}

/** Whether nothing that was typed would be lost. */
function isSaved() {
  return !sheet?.isTyped || sheet.kept === kept;
}

/** Which lesson the marks are of, and what else may be done. */
function told() {
  const { begin, forget, of, other, typing, found } = parts;
  const now = pack ?? current();
  begin.hidden = sheet !== null;
  begin.disabled = !lesson.text;
  forget.disabled = sheet === null;
  typing.hidden = found.hidden = sheet === null;
  put(of, now.title ? SAID.of(now.title, now.seed) : null);
  const same = !pack || ["text", "seed", "versions"].every((name) => pack[name] === lesson[name]);
  other.hidden = same;
  if (!same)
    other.replaceChildren(
      make("span", { class: "quiet" }, SAID.another),
      button(SAID.back_to, () => lesson.open(pack.text, pack.name, pack.seed, { versions: pack.versions })),
    );
}

function current() {
  const { text, name, seed, versions, title } = lesson;
  return { text, name, seed, versions, title };
}

/** What the engine is asked about the marks' own pack, whichever lesson is open now. */
function asked(of = pack) {
  const { text, name, seed, versions } = of;
  return { text, name, seed, versions };
}

const ask = (job, args = {}, options = {}, of = pack) =>
  lesson.ask(job, { ...asked(of), large: 0, tint: undefined, key_words: undefined, ...args }, options);

/** A grid for the marks of a pack, the open lesson's where there are none yet; whether it is there. */
async function started(rows = null, of = pack ?? current()) {
  try {
    const { result } = await ask("grid", {}, {}, of);
    sheet = new MarkSheet(result);
    pack = { ...of, title: result.title };
  } catch (error) {
    lesson.sayWhy(error);
    return false;
  }
  kept = null;
  if (rows) {
    sheet.take(rows);
    pupils = sheet.rows.length;
  }
  sheet.number(pupils);
  drawGrid();
  told();
  changed();
  if (!rows) grid.focus(0, SHEET);
  return true;
}

function drawGrid() {
  const its = sheet;
  const { starter, longest, sheets } = sheet;
  const letters = Array.from({ length: starter.length + longest }, (_, at) => sheet.letter(FIRST + at));
  const heads = [
    [
      ["", 1],
      ["", 1],
      ...sheet.heads,
      ...(longest ? [[SAID.practice, longest]] : []),
    ],
    [[SAID.pupil], [sheets.size > 1 ? SAID.which : SAID.whether], ...letters.map((one) => [one])],
  ];
  grid = new Grid(heads, sheet.width, SHEET, {
    value: (row, at) => sheet.shown(row, at),
    label: (row, at) => SAID.cell(row + 1, named(at)),
    typed: (row, at, text) => {
      sheet.rows[row][at] = text;
      later();
    },
    left: (row, at) => {
      if (sheet !== its) return; // forgotten, or others have taken its place
      const marked = sheet.isMarked(row);
      const typed = sheet.rows[row][at];
      for (const other of sheet.write(row, at, typed)) grid.refresh(row, other);
      if (sheet.isMarked(row) !== marked || (at === SHEET && sheet.rows[row][at] !== typed)) later();
    },
    reached: describe,
    pasted,
    out: () => parts.found.querySelector("button").focus(),
  });
  parts.table.replaceChildren(grid.table);
  parts.number.value = parts.number.defaultValue = pupils;
  grid.show(sheet.rows.length);
}

function named(at) {
  if (at === PUPIL) return SAID.pupil;
  if (at === SHEET) return sheet.sheets.size > 1 ? SAID.which : SAID.whether;
  const part = sheet.isPractice(at) ? SAID.practice : sheet.starter[at - FIRST].heading;
  return SAID.question_of(part, sheet.letter(at));
}

/** What a cell is for, and what is wrong with it. */
function describe(row, at) {
  const question = sheet.question(row, at);
  const pupil = SAID.of_pupil(sheet.rows[row][PUPIL]);
  const is = question ? SAID.question({ ...question, name: sheet.nameOf(question) }) : named(at);
  const wrong = problems.find((one) => one.row === row && one.at === at);
  const isUnmarked = sheet.rows[row][PUPIL].trim() && !sheet.isMarked(row);
  const why = wrong ? [" ", make("strong", { class: "wrong" }, fromEngine(wrong.what))] : [];
  put(parts.shown, SAID.cell_is(pupil, is), isUnmarked ? [" (", SAID.not_marked, ")"] : [], ...why);
}

function numbered(wanted) {
  pupils = wanted;
  if (!sheet) return;
  sheet.number(pupils);
  pupils = sheet.rows.length;
  parts.number.value = parts.number.defaultValue = pupils;
  grid.show(pupils);
  changed();
}

/** Cells from a spreadsheet, written from a cell on to the right and down. */
function pasted(row, at, text) {
  const lines = text.replace(/(\r\n|\r|\n)$/, "").split(/\r\n|\r|\n/);
  if (/^"?pupils?\b/i.test(lines[0])) {
    take(new TextEncoder().encode(text), SAID.pasted);
    return;
  }
  const rows = Math.min(row + lines.length, MOST_PUPILS);
  if (rows > sheet.rows.length) numbered(rows);
  const plain = (cell) => cell.replace(/^"(.*)"$/s, "$1").replaceAll('""', '"');
  lines
    .slice(0, rows - row)
    .forEach((line, down) => sheet.paste(row + down, at, line.split("\t").map(plain)));
  grid.show(sheet.rows.length);
  grid.focus(row, at);
  changed();
}

async function opened(file) {
  try {
    await take(await bytesOf(file, LARGEST, SAID.too_large), file.name, { isFile: true });
  } catch (error) {
    if (error.problems) refuse(error.problems);
    else lesson.sayWhy(error);
  }
}

/**
 * Take in a file's bytes: the marks that it has, in the grid. Where others stand there that are not
 * saved, that is asked first.
 */
async function take(bytes, name, { isFile = false } = {}) {
  leaveAsItIs();
  const mine = taken;
  const of = pack ?? current();
  const filled = async ({ rows, unread: unreadable }) => {
    refuse(unreadable);
    if (!(await started(rows, of))) return;
    if (isFile) kept = sheet.kept;
    lesson.say(SAID.opened(name));
  };
  try {
    const { result } = await ask("typed", { name_of_sheet: String(name) }, { bytes }, of);
    if (mine !== taken) return; // another was opened meanwhile, or all was forgotten
    if (isSaved()) await filled(result);
    else askToReplace(name, () => filled(result));
  } catch (error) {
    if (mine !== taken) return;
    if (error.problems) refuse(error.problems);
    else lesson.sayWhy(error);
  }
}

/** Ask whether other marks take the place of those that are not saved. */
function askToReplace(name, replace) {
  const answered = (act) => async () => {
    leaveAsItIs();
    await act();
    grid.focus();
  };
  const keep = button(SAID.keep, answered(() => {}), { id: "keep-marks" });
  put(
    parts.replacing,
    make("span", {}, SAID.not_saved),
    button(SAID.replace(name), answered(replace), { id: "replace-marks" }),
    keep,
  );
  parts.replacing.hidden = false;
  keep.focus();
}

/** No other marks are to take the place of these. */
function leaveAsItIs() {
  taken += 1;
  parts.replacing.hidden = true;
  put(parts.replacing);
}

function refuse(found) {
  parts.refused.replaceChildren(...found.map((one) => make("li", {}, ...problemSaid(one))));
}

function later() {
  clearTimeout(waiting);
  waiting = setTimeout(changed, PAUSE);
}

/** Have the marks read, as they are now. */
async function changed() {
  clearTimeout(waiting);
  offerSheets();
  showNotMarked();
  read += 1;
  const now = read;
  const { text, places, unclear } = sheet.file;
  if (!sheet.isTyped) {
    shown([], make("p", { class: "quiet" }, SAID.nothing_yet));
    return;
  }
  try {
    const { result } = await ask("findings", { sheet: text }, { instead: "read the marks" });
    if (now !== read || !sheet) return;
    const cells = result.cells.map(({ row, column, what, instead }) => {
      const { row: of, at } = places.get(`${row}:${column}`) ?? places.get(`${row}:`) ?? {};
      return { row: of, at, what: wrongSaid({ what, instead }) };
    });
    shown([...unclear, ...cells], ...findings(result));
  } catch (error) {
    if (now !== read || !sheet) return;
    if (error.problems) shown(unclear, ...error.problems.map((one) => make("p", {}, ...problemSaid(one))));
    else lesson.sayWhy(error);
  }
}

function shown(cells, ...says) {
  problems = cells
    .filter(({ row }) => row !== undefined)
    .map((one) => ({ ...one, where: SAID.cell_of(sheet.rows[one.row][PUPIL], named(one.at)) }));
  grid.mark(problems);
  parts.cells.replaceChildren(...unread(problems, (row, at) => grid.focus(row, at)));
  parts.says.replaceChildren(...says);
  const { row, column } = document.activeElement?.dataset ?? {};
  if (parts.table.contains(document.activeElement)) describe(Number(row), Number(column));
}

/** Where pupils have no sheet yet: give them all one at once. */
function offerSheets() {
  const without = sheet.withoutSheet;
  parts.all.hidden = without.length === 0;
  const give = (name, number) => () => {
    sheet.withoutSheet.forEach((row, at) => sheet.give(row, number ? `${name}.${number(at)}` : name));
    grid.show(sheet.rows.length);
    changed();
    grid.focus();
  };
  const tiers = new Map();
  for (const name of sheet.sheets.keys()) {
    const tier = name.replace(/\.\d+$/, "");
    tiers.set(tier, [...(tiers.get(tier) ?? []), name]);
  }
  const buttons = [...tiers].map(([tier, names]) =>
    names.length === 1
      ? button(sheet.called(names[0]), give(names[0], null))
      : button(SAID.in_turn(sheet.called(names[0]).replace(/ \d+$/, "")), give(tier, (at) => (at % names.length) + 1)),
  );
  parts.all.replaceChildren(make("span", {}, SAID.without_sheet(without.length)), ...buttons);
}

/** Say who is not marked: nothing is counted of them. */
function showNotMarked() {
  const rows = sheet.notMarked;
  grid.leave(rows, SHEET, SAID.not_marked);
  parts.rest.hidden = rows.length === 0;
  put(parts.left, SAID.are_not_marked(rows.length));
}

/** All pupils who are not marked had everything right. */
function restRight() {
  for (const row of sheet.notMarked) sheet.tick(row);
  grid.show(sheet.rows.length);
  changed();
  grid.focus();
}

async function savePdf() {
  try {
    const { result, files } = await ask("marks", { sheet: sheet.file.text });
    const made = result.files.find(({ role }) => role === "marks");
    save(made.name, files[made.file]);
    lesson.say(SAID.saved(made.name));
  } catch (error) {
    lesson.sayWhy(error);
  }
}

function saveCsv() {
  kept = sheet.kept;
  save("marks.csv", kept);
  lesson.say(SAID.saved("marks.csv"));
}

async function followed(questions) {
  try {
    const { result } = await ask("follow", { sheet: sheet.file.text, questions }, { seconds: 120 });
    lesson.open(result.text, "follow-up.yaml", result.seed);
    lesson.go("lesson");
    lesson.say([SAID.followed, joined(result.said, "; ")]);
  } catch (error) {
    lesson.sayWhy(error);
  }
}

/** Forget the marks: at the second press, so that none is lost by a slip. */
function forgotten() {
  const { forget } = parts;
  if (forget.dataset.sure === undefined) {
    forget.dataset.sure = "";
    put(forget, SAID.forget_sure);
    setTimeout(() => {
      delete forget.dataset.sure;
      put(forget, SAID.forget);
    }, 6000);
    return;
  }
  delete forget.dataset.sure;
  put(forget, SAID.forget);
  clearTimeout(waiting);
  leaveAsItIs();
  read += 1;
  sheet = grid = pack = kept = null;
  parts.number.value = parts.number.defaultValue = pupils = CLASS;
  problems = [];
  for (const part of [parts.table, parts.cells, parts.says, parts.refused, parts.shown])
    part.replaceChildren();
  told();
  lesson.say(SAID.forgotten);
  parts.begin.focus();
}
