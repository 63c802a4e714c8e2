// A lesson as a row of moments, each one screen in class.
//
// A moment is {part, place, says, timed, more, draw(stage)}: the part of the lesson and where in
// it, the section whose minutes a timer counts, how many moments on all answers are shown, and how
// it is drawn.

import { make } from "./elements.mjs";
import { ENOUGH, fitted, lettered, listed, spread } from "./fitting.mjs";
import { picture, sizeOf } from "./pictures.mjs";
import { WORDS } from "./speaking.mjs";

const SAID = WORDS.in_class;

/** Of the screen's height: the question over a working, and the largest and smallest sentence. */
const QUESTION = 0.075;
/** It is set as small as this rather than on two lines. */
const SHORTER = 0.05;
const [SENTENCE, SMALLEST] = [0.085, 0.025];
/** And a question that the class is to work. */
const ALONE = 0.14;
/** What the teacher has pupils told over questions: of the height its room and its largest em. */
const [TOLD, TELLING] = [0.16, 0.06];
/** The em of a digit in a working's picture, in its millimetres (layouts/slides/board.py). */
const EM = 15.2;
/** Between two things that stand beside or below one another, of the screen. */
const GAP = 0.03;

/**
 * The moments of a lesson (the job "in class") on a screen of `size` {width, height, whole} in pixels.
 * What does not fit on one is shown on several where a `stage` is given, to be measured on. What
 * pupils read on them is in the `language` of the lesson's pages, where the page speaks that.
 */
export function moments(plain, size, stage, language = null) {
  const all = plain.parts.flatMap(({ examples }) => examples);
  const number = (example) => all.indexOf(example) + 1;
  return plain.parts.flatMap((part) => [
    ...(part.objective ? [objective(part, size)] : []),
    ...part.asked.flatMap((section) => starter(section, size, stage, part.are_answered)),
    ...part.examples.flatMap((example) => [
      ...steps(example.steps, SAID.example(number(example), example.heading), size),
      ...yourTurn(example, number(example), size, language),
    ]),
    ...(part.sheets.length > 0 ? [practice(part, size, language)] : []),
    ...part.answers.flatMap((section) => answers(section, size, stage)),
  ]);
}

/** What is to be learnt in a part, alone on the screen. */
function objective({ heading, objective: words }, size) {
  return {
    part: SAID.objective_of(heading),
    place: "",
    says: words,
    draw: alone(make("b", {}, words), size),
  };
}

/** Words alone on the screen. */
function alone(words, size) {
  return (on) => {
    const box = make("div", { class: "screen tiers" }, make("div", { class: "tier" }, words));
    measured(box, size);
    on.replaceChildren(box);
    fitted(box, SMALLEST * size.height, 1.4 * SENTENCE * size.height);
  };
}

/** An entry of a list: its letter, the question, and the answer, seen or not yet. */
function entry(label, question, answer, seen = true) {
  return make(
    "div",
    { class: "entry-of-list" },
    make("b", { class: "label" }, label),
    make(
      "span",
      { class: question.length > 60 ? "words" : null },
      ...lettered(`${question} `),
      make("b", { class: seen ? "answer" : "answer unseen-yet" }, ...lettered(answer)),
    ),
  );
}

const asked = ({ label, to_do, reply }, seen) => entry(label, to_do, reply, seen);

function starter(section, size, stage, areAnswered) {
  const { heading, questions, told } = section;
  const room = told ? { ...size, height: (1 - TOLD) * size.height } : size;
  const screens = spread(questions, (one) => asked(one), room, stage);
  const drawn = ({ from, to, columns, em, onOneLine }, shown) => {
    const entries = questions.slice(from, to).map((one, at) => asked(one, at < shown));
    return (on) => {
      const list = sized(listed(entries, columns), room, em, onOneLine);
      if (!told) return on.replaceChildren(list);
      const words = make("p", { class: "told" }, make("span", {}, told));
      measured(words, { width: size.width, height: TOLD * size.height });
      on.replaceChildren(make("div", {}, words, list));
      fitted(words, SMALLEST * size.height, TELLING * size.height);
    };
  };
  return [
    ...screens.map((screen, at) => ({
      part: heading,
      place: screens.length > 1 ? SAID.screen(at + 1, screens.length) : "",
      says: SAID.questions(questions.length),
      timed: section,
      more: areAnswered ? screens.length - at + screen.to - 1 : 0,
      draw: drawn(screen, 0),
    })),
    ...(areAnswered ? screens : []).flatMap((screen) =>
      questions.slice(screen.from, screen.to).map((_, shown) => ({
        part: SAID.answers_to(heading),
        place: SAID.answer(screen.from + shown + 1, questions.length),
        says: SAID.one_by_one,
        more: screen.to - screen.from - 1 - shown,
        draw: drawn(screen, shown + 1),
      })),
    ),
  ];
}

function answers(section, size, stage) {
  const { heading, version, questions, told } = section;
  if (questions.length === 0) {
    const draw = alone(make("span", {}, told), size); // where the answers to each version are
    return [{ part: SAID.answers_to(heading), place: "", says: "", draw }];
  }
  const ask = ({ label, asked: question, sign, answer }) =>
    entry(label, `${question} ${sign}`.trimEnd(), answer);
  const screens = spread(questions, ask, size, stage);
  return screens.map(({ from, to, columns, em, onOneLine }, at) => ({
    part: version === null ? SAID.answers_to(heading) : SAID.answers_of(heading, version),
    place: screens.length > 1 ? SAID.screen(at + 1, screens.length) : "",
    says: SAID.questions(questions.length),
    draw: (on) =>
      on.replaceChildren(
        sized(listed(questions.slice(from, to).map(ask), columns), size, em, onOneLine),
      ),
  }));
}

/** A list as it was measured: where each entry had its line, it has it to the last pixel. */
function sized(child, { width, height }, em, onOneLine) {
  const style = { width: `${width}px`, height: `${height}px`, fontSize: `${em}px` };
  return make("div", { class: onOneLine ? "screen on-one-line" : "screen", style }, child);
}

/** Which sheet each tier does, how many questions, and for how long. */
function practice(part, size, language) {
  const { heading, sheets: sections } = part;
  return {
    part: heading,
    place: "",
    says: SAID.tiers(sections.length),
    timed: timedAs(part),
    draw: (on) => {
      const tiers = sections.map(({ heading, questions, minutes, told }) =>
        make(
          "div",
          { class: "tier" },
          make("b", {}, heading),
          ...(told ? [make("span", {}, told)] : []),
          make("span", {}, SAID.do_questions(questions.map(({ label }) => label)).in(language)),
          make("span", {}, minutes ? SAID.for_minutes(minutes).in(language) : ""),
        ),
      );
      const box = make("div", { class: "screen tiers" }, ...tiers);
      measured(box, size);
      on.replaceChildren(box);
      fitted(box, SMALLEST * size.height, 1.4 * SENTENCE * size.height);
    },
  };
}

/** What a part's timer counts: the minutes of its longest sheet. One object, however often it is
 * arranged, as the timer knows it and the teacher may give it other minutes. */
function timedAs(part) {
  const longest = Math.max(0, ...part.sheets.map(({ minutes }) => minutes ?? 0));
  part.timed ??= { minutes: longest || null };
  return part.timed;
}

function measured(box, { width, height }) {
  box.style.width = `${width}px`;
  box.style.height = `${height}px`;
}

/** A working a step at a time. */
function steps(all, part, size) {
  const longest = all.reduce((one, { question }) => longer(one, question), "");
  const sentences = all.map(({ sentence }) => sentence);
  return all.map(({ question, sentence, picture: svg }, at) => ({
    part,
    place: SAID.step(at + 1, all.length),
    says: SAID.steps(all.length),
    draw: (on) => {
      const over = make("h2", { class: "question" }, ...lettered(longest));
      const shown = picture(svg);
      const words = make("p", { class: "sentence" });
      const box = make("div", { class: "screen working" }, over, shown, words);
      measured(box, size);
      on.replaceChildren(box);
      over.classList.add("on-one-line");
      if (fitted(over, SHORTER * size.height, QUESTION * size.height) <= SHORTER * size.height) {
        over.classList.remove("on-one-line");
        over.style.fontSize = `${QUESTION * size.height}px`;
      }
      over.style.height = `${over.offsetHeight}px`;
      over.replaceChildren(...lettered(question));
      arranged(box, shown, words, size.height - over.offsetHeight, size);
      let em = SENTENCE * size.height;
      for (const one of sentences) {
        words.textContent = one;
        em = Math.min(em, fitted(words, SMALLEST * size.height, em));
      }
      words.textContent = sentence;
      words.style.fontSize = `${em}px`;
    },
  }));
}

function longer(one, other) {
  return other.length > one.length ? other : one;
}

/** A working and its sentence: beside one another, or below where that gives larger squares. */
function arranged(box, shown, words, room, size) {
  const { width, height } = sizeOf(shown);
  const gap = 0.03 * size.width;
  const across = (part) => (part * size.width) / width;
  const wide = Math.max(across(0.58), Math.min(across(0.68), enough(size)));
  const beside = Math.min(room / height, wide);
  const below = Math.min((0.66 * room) / height, across(1));
  const isBeside = beside >= Math.min(below, enough(size)) || beside >= below / 1.15;
  const taken = isBeside ? beside : below;
  scaled(shown, taken);
  box.style.columnGap = `${gap}px`;
  words.style.width = `${isBeside ? size.width - taken * width - gap : size.width}px`;
  words.style.height = `${isBeside ? room : room - taken * height - 0.02 * size.height}px`;
}

/** With so many pixels a millimetre the digits of a working are a twelfth of the screen's height. */
function enough({ whole }) {
  return (ENOUGH * whole) / EM;
}

/** Show a picture with so many pixels a millimetre. */
function scaled(shown, scale) {
  const { width, height } = sizeOf(shown);
  shown.style.width = `${scale * width}px`;
  shown.style.height = `${scale * height}px`;
}

/** The matched question with the finished example beside it; then its own working, in steps where
 * that is wanted, and at last whole beside the example. */
function yourTurn(example, number, size, language) {
  const { match } = example;
  if (!match) return [];
  const part = SAID.your_turn(number, example.heading);
  const screen = (question, svg) => (on) => {
    const asks = make("h2", { class: "question" }, ...lettered(question));
    const beside = picture(example.finished);
    const caption = make("p", { class: "caption" }, ...lettered(example.answered));
    const mine = make("div", { class: "mine" }, make("p", { class: "whose" }, SAID.whose.in(language)), asks);
    const kept = make("div", { class: "kept", role: "group", "aria-label": SAID.kept.in(language) }, caption, beside);
    const box = make("div", { class: "screen turn" }, mine, kept);
    measured(box, size);
    on.replaceChildren(box);
    if (svg) {
      const shown = picture(svg);
      mine.append(shown);
      bothWorked({ mine, asks, shown }, { kept, caption, beside }, size);
    } else toDo(box, { mine, asks }, { kept, caption, beside }, size);
  };
  return [
    {
      part,
      place: SAID.try_it,
      says: SAID.with_example,
      draw: screen(match.asked, match.to_put_right),
    },
    ...steps(match.steps, part, size),
    { part, place: SAID.its_working, says: "", draw: screen(match.answered, match.picture) },
  ];
}

/** A question alone, and the finished example beside it or below: where it is the larger. */
function toDo(box, { mine, asks }, { kept, caption, beside }, size) {
  const tried = [0.5, 0.58].map((part) => {
    wide(mine, asks, (1 - GAP - part) * size.width, 0.8 * size.height, ALONE, size);
    return { part, scale: roomFor(kept, caption, beside, part * size.width, size.height, size) };
  });
  wide(mine, asks, size.width, 0.3 * size.height, ALONE, size);
  const left = size.height - mine.offsetHeight - GAP * size.height;
  const below = roomFor(kept, caption, beside, size.width, left, size);
  const best = tried.find(({ scale }) => scale >= enough(size)) ?? tried.at(-1);
  const isBelow = below > 1.15 * best.scale && best.scale < enough(size);
  box.classList.toggle("below", isBelow);
  if (!isBelow) {
    wide(mine, asks, (1 - GAP - best.part) * size.width, 0.8 * size.height, ALONE, size);
    roomFor(kept, caption, beside, best.part * size.width, size.height, size);
  }
  scaled(beside, isBelow ? below : best.scale);
}

/** Two workings beside one another: the class's as large as is enough, then the example. */
function bothWorked({ mine, asks, shown }, { kept, caption, beside }, size) {
  const tried = [0.5, 0.56, 0.62].map((part) => {
    wide(mine, asks, part * size.width, 0.3 * size.height, QUESTION, size);
    const down = size.height - asks.offsetTop - asks.offsetHeight;
    const { width, height } = sizeOf(shown);
    const own = Math.min(down / height, (part * size.width) / width);
    const rest = (1 - GAP - part) * size.width;
    return { part, own, scale: roomFor(kept, caption, beside, rest, size.height, size) };
  });
  const most = Math.max(...tried.map(({ own }) => Math.min(own, enough(size))));
  const { part, own, scale } = tried.find((one) => one.own >= 0.999 * most);
  wide(mine, asks, part * size.width, 0.3 * size.height, QUESTION, size);
  roomFor(kept, caption, beside, (1 - GAP - part) * size.width, size.height, size);
  scaled(shown, own);
  scaled(beside, scale);
}

/** Set a question so wide, as large as goes into so much room. */
function wide(mine, asks, width, room, largest, size) {
  mine.style.width = asks.style.width = `${width}px`;
  asks.style.height = `${room}px`;
  asks.classList.add("on-one-line");
  const most = largest * size.height;
  if (fitted(asks, SMALLEST * size.height, most) < Math.min(most, ENOUGH * size.whole)) {
    asks.classList.remove("on-one-line");
    fitted(asks, SMALLEST * size.height, most);
  }
  asks.style.height = "auto";
}

/** Set the caption of the finished example; gives how large its picture can be then. */
function roomFor(kept, caption, beside, width, room, size) {
  kept.style.width = caption.style.width = `${width}px`;
  caption.style.height = `${0.25 * size.height}px`;
  caption.style.fontSize = `${fitted(caption, SMALLEST * size.height, 0.06 * size.height)}px`;
  caption.style.height = "auto";
  const { width: across, height: down } = sizeOf(beside);
  return Math.min(width / across, (room - caption.offsetHeight) / down);
}
