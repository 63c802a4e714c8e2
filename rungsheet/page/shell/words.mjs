// Every text that people read on the page, in one place: another language is another such file.
// What the engine says (problems, what words mean) comes with its answers.

const counted = (number) => number.toLocaleString("en-GB");
const plural = (number, one, many) => `${counted(number)} ${number === 1 ? one : many}`;

export const LANGUAGE = "en-GB";

export const WORDS = {
  places: {
    lesson: "Lesson",
    sheets: "Sheets",
    "in-class": "In class",
    marks: "Marks",
    find: "Find a sheet",
  },
  frame: {
    name: "Rungsheet",
    places: "Places",
    key: (number) => `Alt+${number}`,
    pack: "Which pack",
    seed: "Seed",
    seed_before: "The seed before",
    seed_after: "The seed after",
    another: "Another",
    another_says: "The same lesson with other questions: the next seed",
    versions: "Versions",
    terms: "What is in this page, and on what terms",
  },
  engine: {
    starting: "Getting ready…",
    ready: "",
    working: "",
    broken: "This browser cannot run the page. Open it in another, or bring this one up to date.",
  },
  not_done: {
    stopped: "Stopped.",
    "out of time": "That took too long and was stopped. Nothing that you typed is lost.",
    fault: "That could not be done: a fault of this page. Nothing that you typed is lost.",
  },
  problem: ({ line, what, instead }) =>
    `${line ? `Line ${line}: ` : ""}${what}${instead ? `; ${instead}` : ""}`,
  counted,
  lesson: {},
  sheets: {},
  in_class: {},
  marks: {},
  find: {},
};
