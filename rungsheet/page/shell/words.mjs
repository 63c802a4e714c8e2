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
  sheets: {
    files: "Files of this lesson",
    file: (name) => {
      const tier = /^practice-(.*)\.pdf$/.exec(name)?.[1].replaceAll("-", " ");
      if (tier) return `${tier[0].toUpperCase()}${tier.slice(1)} practice`;
      return (
        {
          "starter.pdf": "Starter",
          "examples.pdf": "Examples, slides",
          "examples-on-paper.pdf": "Examples on paper",
          "answers.pdf": "Answers, slides",
          "key.pdf": "Teacher’s key",
        }[name] ?? name
      );
    },
    pages: (number) => plural(number, "page", "pages"),
    more: (number) => `Show all ${counted(number)} pages`,
    look: "How it is printed",
    large: "Large print",
    large_choice: (points) => (points ? `${points} points` : "as in the lesson"),
    tint: "Tint",
    tint_choice: (tint) => tint || "as in the lesson",
    paper: "Paper",
    save: "Save and print",
    save_pdf: "Save this PDF",
    save_zip: "Save all (zip)",
    save_spec: "Save the spec",
    print: "Print these pages",
    class_set: "Class set",
    class_set_of: "A class set of",
    class_set_save: "Save a class set (zip)",
    class_set_says: "So many versions of each practice sheet, with answers and key",
    stop: "Stop",
    working: (name) => `Drawing ${name}…`,
    done: (done, of) => `${counted(done)} of ${counted(of)} pages drawn`,
    saved: (name) => `Saved: ${name}`,
    printing: "The print window opens. Choose actual size (100 %), so that squares keep their size.",
    cannot: "This lesson cannot be made into sheets yet",
    to_lesson: "Go to the text",
    waiting: "The sheets come as soon as the engine is ready.",
  },
  in_class: {
    says:
      "The lesson on the whole screen, for the projector: one thing at a time, moved on by a key, " +
      "a clicker or a click.",
    begin: "Begin",
    go_on: (part) => `Go on with: ${part}`,
    plan: "Begin anywhere",
    keys_are: "Keys",
    keys: [
      ["→ Page Down space", "on (a click does so too)"],
      ["← Page Up", "back"],
      ["A", "all answers at once"],
      ["T", "start or stop the timer"],
      ["B", "black screen, and back"],
      ["Home, End", "the first, the last"],
      ["Esc", "leave"],
    ],
    whole: "The lesson, for the class",
    back: "Back",
    on: "On",
    leave: "Leave",
    where: (part, place) => (place ? `${part} · ${place}` : part),
    minutes: "Timer, minutes",
    minutes_for: (part) => `Minutes of the timer: ${part}`,
    timer_says: "Start or stop the timer (T)",
    timer: (text, running, over) =>
      over ? "Timer: time is up" : `Timer: ${text}, ${running ? "running" : "stopped"}`,
    box: "empty box",
    screen: (at, of) => `${at} of ${of}`,
    questions: (number) => plural(number, "question", "questions"),
    answers_to: (heading) => `${heading}: answers`,
    answers_of: (heading, version) =>
      version === null ? `${heading}: answers` : `${heading}, version ${version}: answers`,
    answer: (at, of) => `${at} of ${of}`,
    one_by_one: "one by one, or all",
    example: (number, heading) => `Example ${number}: ${heading.toLowerCase()}`,
    step: (at, of) => `step ${at} of ${of}`,
    steps: (number) => plural(number, "step", "steps"),
    your_turn: (number, heading) => `Your turn ${number}: ${heading.toLowerCase()}`,
    whose: "Your turn",
    try_it: "try it",
    its_working: "its working",
    with_example: "the example stays beside it",
    kept: "The finished example",
    practice: "Practice",
    tiers: (number) => plural(number, "sheet", "sheets"),
    sheet: (heading) => heading,
    do_questions: (labels) =>
      labels.length > 1
        ? `questions ${labels[0]} to ${labels.at(-1)}: ${labels.length} in all`
        : `question ${labels[0]}`,
    for_minutes: (minutes) => plural(minutes, "minute", "minutes"),
  },
  marks: {},
  find: {},
};
