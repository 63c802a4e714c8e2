// What the marks of a class say: groups for tomorrow, rungs to teach again, how each rung went.

import { button, fromEngine, make } from "./elements.mjs";
import { WORDS } from "./speaking.mjs";

const SAID = WORDS.marks;

/** The findings (the job "findings") as elements. */
export function findings({ groups, reteach, rungs, pupils, absent, doubt, spelt }) {
  const marked = pupils.filter(({ attempted }) => attempted > 0).length;
  const tried = rungs.filter(({ attempted }) => attempted > 0);
  return [
    make("p", { class: "quiet" }, SAID.of_pupils(marked)),
    doubt ? make("p", { class: "problems" }, fromEngine(doubt)) : null,
    make("h2", {}, SAID.groups),
    groups.length
      ? make("dl", { class: "groups" }, ...groups.flatMap(group))
      : make("p", { class: "quiet" }, SAID.no_groups),
    absent.length ? make("p", {}, SAID.absent(absent)) : null,
    make("h2", {}, SAID.reteach),
    reteach.length
      ? make("ul", { class: "reteach" }, ...reteach.map((rung) => make("li", {}, spelt[rung])))
      : make("p", { class: "quiet" }, SAID.no_reteach),
    make("h2", {}, SAID.rungs),
    make("table", { class: "went" }, make("tbody", {}, ...tried.map((one) => share(one, spelt[one.rung])))),
  ].filter((one) => one !== null);
}

function group({ called, pupils, says }) {
  return [
    make("dt", {}, make("b", {}, fromEngine(called)), SAID.who(pupils)),
    ...says.map((sentence) => make("dd", {}, fromEngine(sentence))),
  ];
}

function share({ attempted, right }, rung) {
  return make(
    "tr",
    {},
    make("th", { scope: "row" }, rung),
    make("td", {}, SAID.right_of(right, attempted)),
    make("td", {}, make("meter", { min: 0, max: attempted, value: right, "aria-label": rung })),
  );
}

/** What is wrong with cells, each a button that goes to its cell. */
export function unread(problems, go) {
  return problems.map(({ row, at, where, what }) =>
    make("li", {}, button(where, () => go(row, at)), " ", fromEngine(what)),
  );
}
