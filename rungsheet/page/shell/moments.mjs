// A lesson as a row of moments, each one screen in class.
//
// A moment is {part, place, says, timed, more, draw(stage)}: the part of the lesson and where in
// it, the section whose minutes a timer counts, how many moments on all answers are shown, and how
// it is drawn.

import { make } from "./elements.mjs";
import { fitted, lettered, listed, spread } from "./fitting.mjs";
import { picture, sizeOf } from "./pictures.mjs";
import { WORDS } from "./words.mjs";

const SAID = WORDS.in_class;

/** Of the screen's height: the question over a working, and the largest and smallest sentence. */
const QUESTION = 0.075;
const [SENTENCE, SMALLEST] = [0.085, 0.025];
/** And a question that the class is to work. */
const ALONE = 0.14;

/**
 * The moments of a lesson (the job "in class") on a screen of `size` {width, height, whole} in pixels.
 * What does not fit on one is shown on several where a `stage` is given, to be measured on.
 */
export function moments(plain, size, stage) {
  const all = plain.parts.flatMap(({ examples }) => examples);
  const number = (example) => all.indexOf(example) + 1;
  return plain.parts.flatMap((part) => [
    ...(part.objective ? [objective(part, size)] : []),
    ...part.asked.flatMap((section) => starter(section, size, stage, part.are_answered)),
    ...part.examples.flatMap((example) => [
      ...steps(example, number(example), size),
      ...yourTurn(example, number(example), size),
    ]),
    ...(part.sheets.length > 0 ? [practice(part, size)] : []),
    ...part.answers.flatMap((section) => answers(section, size, stage)),
  ]);
}

/** What is to be learnt in a part, alone on the screen. */
function objective({ heading, objective: words }, size) {
  return {
    part: SAID.objective_of(heading),
    place: "",
    says: words,
    draw: (on) => {
      const box = make("div", { class: "screen tiers" }, make("div", { class: "tier" }, make("b", {}, words)));
      measured(box, size);
      on.replaceChildren(box);
      fitted(box, SMALLEST * size.height, 1.4 * SENTENCE * size.height);
    },
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
  const { heading, questions } = section;
  const screens = spread(questions, (one) => asked(one), size, stage);
  const drawn = ({ from, to, columns, em }, shown) => {
    const entries = questions.slice(from, to).map((one, at) => asked(one, at < shown));
    return (on) => on.replaceChildren(sized(listed(entries, columns), size, em));
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
  const { heading, version, questions } = section;
  const ask = ({ label, asked: question, sign, answer }) =>
    entry(label, `${question} ${sign}`.trimEnd(), answer);
  const screens = spread(questions, ask, size, stage);
  return screens.map(({ from, to, columns, em }, at) => ({
    part: SAID.answers_of(heading, version),
    place: screens.length > 1 ? SAID.screen(at + 1, screens.length) : "",
    says: SAID.questions(questions.length),
    draw: (on) =>
      on.replaceChildren(sized(listed(questions.slice(from, to).map(ask), columns), size, em)),
  }));
}

function sized(child, { width, height }, em) {
  const style = { width: `${width}px`, height: `${height}px`, fontSize: `${em}px` };
  return make("div", { class: "screen", style }, child);
}

/** Which sheet each tier does, how many questions, and for how long. */
function practice({ heading: part, sheets: sections }, size) {
  const longest = Math.max(0, ...sections.map(({ minutes }) => minutes ?? 0));
  return {
    part,
    place: "",
    says: SAID.tiers(sections.length),
    timed: longest ? { minutes: longest } : { minutes: null },
    draw: (on) => {
      const tiers = sections.map(({ heading, questions, minutes, told }) =>
        make(
          "div",
          { class: "tier" },
          make("b", {}, SAID.sheet(heading)),
          ...(told ? [make("span", {}, told)] : []),
          make("span", {}, SAID.do_questions(questions.map(({ label }) => label))),
          make("span", {}, minutes ? SAID.for_minutes(minutes) : ""),
        ),
      );
      const box = make("div", { class: "screen tiers" }, ...tiers);
      measured(box, size);
      on.replaceChildren(box);
      fitted(box, SMALLEST * size.height, 1.4 * SENTENCE * size.height);
    },
  };
}

function measured(box, { width, height }) {
  box.style.width = `${width}px`;
  box.style.height = `${height}px`;
}

function steps(example, number, size) {
  const longest = example.steps.reduce((one, { question }) => longer(one, question), "");
  const sentences = example.steps.map(({ sentence }) => sentence);
  return example.steps.map(({ question, sentence, picture: svg }, at) => ({
    part: SAID.example(number, example.heading),
    place: SAID.step(at + 1, example.steps.length),
    says: SAID.steps(example.steps.length),
    draw: (on) => {
      const over = make("h2", { class: "question" }, ...lettered(longest));
      const shown = picture(svg);
      const words = make("p", { class: "sentence" });
      const box = make("div", { class: "screen working" }, over, shown, words);
      measured(box, size);
      on.replaceChildren(box);
      over.style.fontSize = `${QUESTION * size.height}px`;
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
  const beside = Math.min(room / height, (0.58 * size.width) / width);
  const below = Math.min((0.68 * room) / height, size.width / width);
  const scale = Math.max(beside, below / 1.15);
  const across = scale === beside;
  const taken = across ? beside : below;
  shown.style.width = `${taken * width}px`;
  shown.style.height = `${taken * height}px`;
  box.style.columnGap = `${gap}px`;
  words.style.width = `${across ? size.width - taken * width - gap : size.width}px`;
  words.style.height = `${across ? room : room - taken * height - 0.02 * size.height}px`;
}

/** The matched question with the finished example beside it; then its own working. */
function yourTurn(example, number, size) {
  const { match } = example;
  if (!match) return [];
  const part = SAID.your_turn(number, example.heading);
  const screen = (question, svg) => (on) => {
    const asks = make("h2", { class: "question" }, ...lettered(question));
    const beside = picture(example.finished);
    const caption = make("p", { class: "caption" }, ...lettered(example.answered));
    const mine = make("div", { class: "mine" }, make("p", { class: "whose" }, SAID.whose), asks);
    const kept = make("div", { class: "kept", role: "group", "aria-label": SAID.kept }, caption, beside);
    const box = make("div", { class: "screen turn" }, mine, kept);
    measured(box, size);
    on.replaceChildren(box);
    captioned(caption, beside, size);
    const width = 0.62 * size.width;
    mine.style.width = `${width}px`;
    asks.style.width = `${width}px`;
    asks.style.height = `${(svg ? 0.3 : 0.8) * size.height}px`;
    const em = fitted(asks, SMALLEST * size.height, (svg ? QUESTION : ALONE) * size.height);
    asks.style.fontSize = `${em}px`;
    asks.style.height = "auto";
    if (!svg) return;
    const shown = picture(svg);
    mine.append(shown);
    const room = size.height - asks.offsetTop - asks.offsetHeight;
    const plain = sizeOf(shown);
    const scale = Math.min(room / plain.height, width / plain.width);
    shown.style.width = `${scale * plain.width}px`;
    shown.style.height = `${scale * plain.height}px`;
  };
  return [
    {
      part,
      place: SAID.try_it,
      says: SAID.with_example,
      draw: screen(match.asked, match.to_put_right),
    },
    { part, place: SAID.its_working, says: "", draw: screen(match.answered, match.picture) },
  ];
}

function captioned(caption, beside, size) {
  const width = 0.34 * size.width;
  caption.style.width = `${width}px`;
  caption.style.height = `${0.25 * size.height}px`;
  caption.style.fontSize = `${fitted(caption, SMALLEST * size.height, 0.06 * size.height)}px`;
  caption.style.height = "auto";
  const { width: across, height: down } = sizeOf(beside);
  const scale = Math.min(width / across, (size.height - caption.offsetHeight) / down);
  beside.style.width = `${scale * across}px`;
  beside.style.height = `${scale * down}px`;
}
