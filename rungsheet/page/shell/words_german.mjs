// Every text of words.mjs in German, under the same names.

import { capital, inWords } from "./words.mjs";

const counted = (number) => number.toLocaleString(LANGUAGE);
const plural = (number, one, many) => `${counted(number)} ${number === 1 ? one : many}`;

export const LANGUAGE = "de-DE";
export const NAME = "Deutsch";
export const IN_SPECS = "German";

export const WORDS = {
  places: {
    lesson: "Stunde",
    sheets: "Blätter",
    "in-class": "Im Unterricht",
    marks: "Auswertung",
    find: "Blatt finden",
  },
  frame: {
    name: "Rungsheet",
    places: "Bereiche",
    key: (number) => `Alt+${number}`,
    pack: "Welche Aufgaben",
    seed: "Startzahl",
    seed_before: "Die Startzahl davor",
    seed_after: "Die Startzahl danach",
    another: "Andere",
    another_says: "Dieselbe Stunde mit anderen Aufgaben: die nächste Startzahl",
    versions: "Versionen",
    terms: "Was in dieser Seite steckt und zu welchen Bedingungen",
    language: "Sprache",
  },
  engine: {
    starting: "Gleich geht es los …",
    ready: "",
    broken:
      "Dieser Browser kann die Seite nicht ausführen. In einem anderen öffnen oder diesen aktualisieren.",
  },
  not_done: {
    stopped: "Angehalten.",
    "out of time": "Das dauerte zu lange und wurde angehalten. Nichts Eingegebenes ist verloren.",
    fault: "Das ging nicht: ein Fehler dieser Seite. Nichts Eingegebenes ist verloren.",
  },
  line: (line) => `Zeile ${line}: `,
  lesson: {
    ready: "Fertige Stunden",
    open_file: "Stunde aus Datei öffnen …",
    save: "Stunde speichern",
    title: "Titel",
    undo: "Rückgängig",
    redo: "Wiederherstellen",
    ladder: "Die Stufen",
    ladder_says: "Jede Stufe eine Art Aufgaben, die leichteste zuerst. Zum Ändern eine Stufe öffnen.",
    questions: (count) => (count === null ? "" : plural(count, "Aufgabe", "Aufgaben")),
    rung_says: (name) => capital(inWords(name)),
    rung_name: "Name",
    of_rung: (act, rung) => `${act}: ${rung}`,
    copy: "Kopieren",
    up: "Nach oben",
    down: "Nach unten",
    remove: "Entfernen",
    add: "Stufe hinzufügen",
    add_name: "Name der neuen Stufe",
    add_operation: "Rechenart",
    operations: {
      add: "addieren",
      subtract: "subtrahieren",
      multiply: "multiplizieren",
      divide: "dividieren",
      order: "ordnen",
      compare: "vergleichen",
      round: "runden",
    },
    word: (word) => word.replaceAll("_", " "),
    control: (word, label) => (label === word ? word : `${word}: ${label}`),
    left: (count) => (count === null ? "zu weit gefasst" : counted(count)),
    because: (why) => `(${why})`,
    choice: (says, left) => (left === undefined ? says : `${says}  (${left})`),
    chosen: (words) => (words.length ? words.join(", ") : "nichts gesagt"),
    counts_say:
      "Neben jeder Wahl: wie viele Aufgaben mit ihr blieben. Was 0 ließe, kann nicht gewählt werden.",
    parts: "Wie viele Aufgaben",
    parts_say: "Aus jeder Stufe, in jedem Teil der Stunde. Ein Beispiel ist ein Paar.",
    rung: "Stufe",
    minutes: "Minuten",
    all: "Alle",
    count_of: (rung, part) => `${rung} in ${part}`,
    minutes_of: (part) => `Minuten für ${part}`,
    finds_out: "Findet Fehlermuster",
    finds_out_say:
      "Von den Aufgaben jeder Stufe die, deren Ergebnisse am meisten darüber sagen, wer wie rechnet",
    finds_out_in: (part) => `Aufgaben in ${part} so wählen, dass sie Fehlermuster finden`,
    settings: "Wie gerechnet und gesetzt wird",
    settings_say:
      "Schriftliche Verfahren, Rechenrahmen und Überschläge, für die ganze Stunde oder einen Teil; " +
      "was ein Teil den Kindern sagt; und wie Seiten aussehen. Nichts davon ändert eine Aufgabe.",
    settings_of: "Für",
    settings_whole: "die ganze Stunde",
    settings_part: (heading, says) => (says ? `${heading}: ${says}` : heading),
    settings_groups: {
      lesson: "In der Stunde",
      methods: "Schriftliche Verfahren",
      sheets: "Auf den Blättern der Kinder",
      pages: "Wie Seiten aussehen",
    },
    can_be_estimated: (questions, of) =>
      `${counted(questions)} von ${plural(of, "Aufgabe", "Aufgaben")} mit Überschlag möglich`,
    run: (part, rungs) =>
      `${part}: eine Reihe aus ${rungs.map((name) => inWords(name)).join(", ")}. `,
    add_tier: "Niveau hinzufügen",
    add_tier_name: "Name des neuen Niveaus",
    remove_tier: (name) => `${name} entfernen`,
    beside: "Neben den Stufen",
    sheet: "Blatt",
    text: "Text",
    text_label: "Die Stunde als Text",
    problems: "Was zu berichtigen ist",
    mistaken: "Im Text ist zuerst etwas zu berichtigen: siehe daneben.",
    file: "Welches Blatt",
  },
  sheets: {
    files: "Dateien dieser Stunde",
    called: {
      "starter.pdf": "Einstieg",
      "examples.pdf": "Beispiele, Folien",
      "examples-on-paper.pdf": "Beispiele auf Papier",
      "answers.pdf": "Ergebnisse, Folien",
      "key.pdf": "Lösungen für die Lehrkraft",
    },
    practice: (tier) => `Übung ${capital(inWords(tier))}`,
    more: (number) => `Alle ${counted(number)} Seiten zeigen`,
    look: "Wie gedruckt wird",
    large: "Großdruck",
    points: (points) => `${points} Punkt`,
    as_in_lesson: "wie in der Stunde",
    tint: "Farbton",
    tints: {
      cream: "Creme",
      peach: "Pfirsich",
      mint: "Minze",
      sky: "Himmelblau",
      lilac: "Flieder",
      rose: "Rosa",
    },
    paper: "Papier",
    save: "Speichern und drucken",
    save_pdf: "Dieses PDF speichern",
    save_zip: "Alles speichern (ZIP)",
    save_spec: "Stunde speichern",
    print: "Diese Seiten drucken",
    class_set: "Klassensatz",
    class_set_of: "Klassensatz von",
    class_set_save: "Klassensatz speichern (ZIP)",
    class_set_says: "So viele Versionen jedes Übungsblatts, mit Ergebnissen und Lösungen",
    stop: "Anhalten",
    working: (name) => `${name} wird gezeichnet …`,
    done: (done, of) => `${counted(done)} von ${counted(of)} Seiten gezeichnet`,
    saved: (name) => `Gespeichert: ${name}`,
    printing:
      "Das Druckfenster öffnet sich. Tatsächliche Größe (100 %) wählen, damit Kästchen ihre Größe behalten.",
    cannot: "Aus dieser Stunde können noch keine Blätter werden",
    to_lesson: "Zum Text",
    questions: "Aufgaben darauf",
    questions_say:
      "Eine gegen eine andere ihrer Stufe wechseln, oder sie behalten, während sich andere ändern.",
    question: (label, text) => `${label}) ${text}`,
    of_question: (act, question) => `${act}: ${question}`,
    other: "Wechseln",
    keep: "Behalten",
    kept: " (behalten)",
    let_change: "Freigeben",
    waiting: "Die Blätter kommen, sobald das Rechenwerk bereit ist.",
  },
  in_class: {
    says:
      "Die Stunde auf dem ganzen Bildschirm, für den Beamer: eins nach dem anderen, weiter mit einer " +
      "Taste, einem Presenter oder einem Klick.",
    begin: "Beginnen",
    go_on: (part) => `Weiter mit: ${part}`,
    plan: "An beliebiger Stelle beginnen",
    keys_are: "Tasten",
    keys: [
      ["→ Bild ab Leertaste", "weiter (ein Klick auch)"],
      ["← Bild auf", "zurück"],
      ["A", "alle Ergebnisse auf einmal"],
      ["T", "Uhr starten oder anhalten"],
      ["B", "schwarzer Bildschirm, und zurück"],
      ["Pos1, Ende", "zum Anfang, zum Schluss"],
      ["Esc", "verlassen"],
    ],
    whole: "Die Stunde, für die Klasse",
    back: "Zurück",
    on: "Weiter",
    leave: "Verlassen",
    where: (part, place) => (place ? `${part} · ${place}` : part),
    minutes: "Uhr, Minuten",
    minutes_for: (part) => `Minuten der Uhr: ${part}`,
    timer_says: "Uhr starten oder anhalten (T)",
    timer: (text, running, over) =>
      over ? "Uhr: Die Zeit ist um" : `Uhr: ${text}, ${running ? "läuft" : "steht"}`,
    box: "leeres Kästchen",
    screen: (at, of) => `${at} von ${of}`,
    questions: (number) => plural(number, "Aufgabe", "Aufgaben"),
    answers_to: (heading) => `${heading}: Ergebnisse`,
    answers_of: (heading, version) => `${heading}, Version ${version}: Ergebnisse`,
    answer: (at, of) => `${at} von ${of}`,
    one_by_one: "eins nach dem anderen, oder alle",
    example: (number, heading) => `Beispiel ${number}: ${heading}`,
    step: (at, of) => `Schritt ${at} von ${of}`,
    steps: (number) => plural(number, "Schritt", "Schritte"),
    your_turn: (number, heading) => `Jetzt du ${number}: ${heading}`,
    whose: "Jetzt du",
    try_it: "zum Probieren",
    its_working: "so wird gerechnet",
    with_example: "das Beispiel bleibt daneben",
    kept: "Das fertige Beispiel",
    objective_of: (heading) => `${heading}: Lernziel`,
    tiers: (number) => plural(number, "Blatt", "Blätter"),
    do_questions: (labels) =>
      labels.length > 1
        ? `Aufgaben ${labels[0]} bis ${labels.at(-1)}: ${labels.length} insgesamt`
        : `Aufgabe ${labels[0]}`,
    for_minutes: (minutes) => plural(minutes, "Minute", "Minuten"),
  },
  marks: {
    privacy:
      "Ergebnisse von Kindern sind personenbezogene Daten. Sie bleiben im Speicher dieser Seite: " +
      "Nichts wird gesendet, nichts im Browser aufbewahrt, und was nicht gespeichert wird, ist weg, " +
      "sobald die Seite geschlossen ist. Nummern genügen; Namen sind nicht nötig. Eine gespeicherte " +
      "Datei dort aufbewahren, wo Daten der Kinder liegen dürfen.",
    how:
      "Leer heißt richtig: nur eintippen, was falsch war, so wie das Kind es schrieb; n, wo nicht " +
      "bekannt ist, was; -, wo nichts dasteht. Ein Kind zählt, sobald in seiner Zeile etwas steht: in " +
      "der zweiten Spalte j, wo alles richtig war, - oder fehlt, wenn es nicht da war. Pfeile, Eingabe und Tab bewegen; Esc verlässt die Tafel; Zellen aus einer " +
      "Tabellenkalkulation lassen sich einfügen.",
    pupils: "Kinder",
    begin: "Ergebnisse eintippen",
    open: "Auswertungsbogen öffnen …",
    forget: "Alles vergessen",
    forget_sure: "Noch einmal drücken, um alles zu vergessen",
    forgotten: "Alle Ergebnisse sind vergessen.",
    of: (title, seed) => `Ergebnisse zu: ${title}, Startzahl ${seed}`,
    another: "Jetzt ist eine andere Stunde offen.",
    back_to: "Zurück zur Stunde dieser Ergebnisse",
    unread: "Was nicht gelesen werden konnte",
    practice: "Übung",
    pupil: "Kind",
    which: "Blatt",
    whether: "Richtig?",
    not_marked: "offen",
    are_not_marked: (number) =>
      `${plural(number, "Kind ist noch offen und zählt", "Kinder sind noch offen und zählen")} nicht mit.`,
    rest_right: "Bei ihnen war alles richtig",
    away: "fehlt",
    sheet: (name) => name.replaceAll(".", " "),
    cell: (row, column) => `Zeile ${row}, ${column}`,
    cell_of: (pupil, column) => `Kind ${pupil}, ${column}:`,
    cell_is: (pupil, is) => `${pupil}: ${is}`,
    question_of: (part, letter) => `${part} ${letter}`,
    of_pupil: (pupil) => `Kind ${pupil}`,
    question: ({ name, asked, reply }) => `${name.replaceAll(".", " ")}: ${asked} ${reply}`,
    no_sheet: (typed, names) =>
      `kein Blatt heißt ${typed}; ${names.join(", ")} oder den Anfang davon schreiben`,
    which_sheet: (names) =>
      `es fehlt, welches Blatt das Kind hatte; ${names.join(", ")} oder - schreiben`,
    no_question: "dieses Blatt hat keine solche Aufgabe; sie bleibt außer Acht",
    without_sheet: (number) =>
      `${plural(number, "Kind hat", "Kinder haben")} noch kein Übungsblatt. Alle hatten:`,
    in_turn: (tier) => `${tier}, die Versionen reihum`,
    nothing_yet: "Was die Ergebnisse sagen, steht hier, sobald etwas eingetippt ist.",
    pasted: "was eingefügt wurde",
    opened: (name) => `Geöffnet: ${name}`,
    too_large: (name) => `${name} ist zu groß für einen Auswertungsbogen`,
    save: "Speichern",
    save_pdf: "marks.pdf speichern",
    save_csv: "marks.csv speichern",
    saved: (name) => `Gespeichert: ${name}`,
    tomorrow: "Einstieg für morgen",
    tomorrow_questions: "Aufgaben",
    followed: "Einstieg für morgen. ",
    of_pupils: (number) => `Von ${plural(number, "Kind", "Kindern")}`,
    groups: "Gruppen für morgen",
    no_groups: "Von keinem Kind gibt es bisher Ergebnisse.",
    findings: {
      secure: "sicher",
      slips: "Flüchtigkeitsfehler",
      habit: "Fehlermuster",
      "not there yet": "noch nicht so weit",
      "not enough to say": "nicht genug für eine Aussage",
    },
    who: (pupils) => ` (${pupils.length}): ${pupils.join(", ")}`,
    absent: (pupils) => `Abwesend: ${pupils.join(", ")}`,
    reteach: "Noch einmal unterrichten",
    no_reteach: "Keine Stufe braucht es: Bei jeder sind mindestens drei Fünftel richtig.",
    rungs: "Wie es mit jeder Stufe ging",
    right_of: (right, of) => `${counted(right)} von ${counted(of)} richtig`,
  },
  find: {
    says:
      "Jede Seite eines Blatts trägt am Fuß einen Code. Ihn eintippen oder das PDF des Blatts auf " +
      "diese Seite ziehen: Hier stehen seine Ergebnisse und seine Stunde.",
    code: "Code",
    find: "Finden",
    or: "oder",
    open: "PDF öffnen …",
    too_large: (name) => `${name} ist zu groß für ein Blatt`,
    pack: (seed, versions) =>
      versions > 1
        ? `Startzahl ${seed}, ${plural(versions, "Version", "Versionen")}`
        : `Startzahl ${seed}`,
    all: (number) => `Die Ergebnisse aller ${counted(number)} Teile zeigen`,
    save_key: "Seine Lösungen speichern (PDF)",
    open_lesson: "Seine Stunde öffnen",
    saved: (name) => `Gespeichert: ${name}`,
  },
  passing_on: {
    heading: "Diese Stunde weitergeben",
    says_link:
      "Ein Link enthält die ganze Stunde, ihre Startzahl und ihr Aussehen hinter dem Zeichen #; " +
      "dieser Teil geht nie an den Server. Wer ihn öffnet, bekommt genau dieselben Blätter.",
    says_file:
      "Diese Seite ist aus einer Datei geöffnet, und ein Link darauf ginge bei niemand anderem auf. " +
      "Die Datei der Stunde weitergeben und die Startzahl nennen: Wer sie öffnet, bekommt genau " +
      "dieselben Blätter.",
    copy: "Link kopieren",
    copied: "Der Link ist kopiert.",
    copy_yourself: "Den markierten Link kopieren.",
    link: "Link zu dieser Stunde",
    save_spec: "Stunde speichern",
    too_long: "Der Link ist zu lang für eine Stunde; stattdessen um die Datei der Stunde bitten.",
    damaged: "Der Link enthält keine Stunde: Vielleicht fehlt ein Stück. Noch einmal ganz kopieren.",
  },
};
