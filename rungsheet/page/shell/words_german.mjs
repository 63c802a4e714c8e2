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
    another: "Neue Aufgaben",
    another_says: "Dieselbe Stunde mit anderen Aufgaben: die nächste Startzahl",
    versions: "Versionen",
    whole_number: (least, most) =>
      `Dort kann nur eine ganze Zahl von ${counted(least)} bis ${counted(most)} stehen.`,
    terms: "Was in dieser Seite steckt und zu welchen Bedingungen",
    language: "Sprache",
  },
  engine: {
    starting: "Gleich geht es los …",
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
  cannot_read: (name) => `${name} konnte nicht gelesen werden; noch einmal wählen oder erst in einen eigenen Ordner kopieren`,
  lesson: {
    ready: "Fertige Stunden",
    open_file: "Stunde öffnen …",
    too_large: (name) => `${name} ist zu groß für eine Stunde; deren Datei hat höchstens 256 KiB`,
    no_text: (name) => `${name} ist kein Text, also keine Stunde; das PDF eines Blattes wird unter Blatt finden geöffnet`,
    save: "Stunde speichern",
    title: "Titel",
    undo: "Rückgängig",
    redo: "Wiederherstellen",
    ladder: "Die Stufen",
    ladder_says:
      "Jede Stufe ist eine Art von Aufgaben, die leichteste zuerst. Zum Ändern eine Stufe öffnen.",
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
    control: (word, label) => `${word}: ${label}`,
    left: (count) => (count === null ? "zu viele zum Zählen" : counted(count)),
    because: (why) => `(${why})`,
    choice: (says, left) => `${says}  (${left})`,
    chosen: (words) => (words.length ? words.join(", ") : "offen"),
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
      "Auf jeder Stufe die Aufgaben wählen, deren falsche Ergebnisse am deutlichsten zeigen, welches " +
      "Fehlermuster ein Kind hat.",
    finds_out_in: (part) => `Aufgaben in ${part} so wählen, dass sie Fehlermuster finden`,
    settings: "Wie gerechnet und gesetzt wird",
    settings_say:
      "Schriftliche Verfahren, Vorgaben in den Kästchen und Überschläge, für die ganze Stunde oder " +
      "einen Teil; was ein Teil den Kindern sagt; und wie Seiten aussehen. Nichts davon ändert eine Aufgabe.",
    settings_of: "Einstellungen für",
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
      `${part}: eine Reihe aus ${rungs.join(", ")}. `,
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
      "lesson.pdf": "Stunde, Folien",
      "examples.pdf": "Beispiele, Folien",
      "examples-on-paper.pdf": "Beispiele auf Papier",
      "practice.pdf": "Übung",
      "exit.pdf": "Abschlussfragen",
      "homework.pdf": "Hausaufgabe",
      "answers.pdf": "Ergebnisse, Folien",
      "answers-on-paper.pdf": "Ergebnisse auf Papier",
      "plan.pdf": "Verlaufsplan der Stunde",
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
    key_words: "Fachwörter auf",
    languages: {
      French: "Französisch",
      German: "Deutsch",
      Italian: "Italienisch",
      Polish: "Polnisch",
      Portuguese: "Portugiesisch",
      Romanian: "Rumänisch",
      Russian: "Russisch",
      Spanish: "Spanisch",
      Turkish: "Türkisch",
      Ukrainian: "Ukrainisch",
    },
    paper: "Papier",
    save: "Speichern und drucken",
    save_pdf: "Dieses PDF speichern",
    save_zip: "Alles speichern (ZIP)",
    pack: "das Paket",
    save_spec: "Stunde speichern",
    print: "Diese Seiten drucken",
    class_set: "Klassensatz",
    class_set_of: "Klassensatz von",
    class_set_save: "Klassensatz speichern (ZIP)",
    class_set_says: "So viele Versionen jedes Übungsblatts, mit Ergebnissen und Lösungen",
    stop: "Anhalten",
    working: (name) => `Wird gezeichnet: ${name} …`,
    done: (done, of) => `${counted(done)} von ${counted(of)} Seiten gezeichnet`,
    saved: (name) => `Gespeichert: ${name}`,
    printing:
      "Das Druckfenster öffnet sich. Tatsächliche Größe (100 %) wählen, damit Kästchen ihre Größe behalten.",
    cannot: "Aus dieser Stunde können noch keine Blätter werden",
    to_lesson: "Zum Text",
    questions: "Aufgaben darauf",
    questions_say:
      "Eine Aufgabe gegen eine andere derselben Stufe austauschen oder sie behalten, während sich andere ändern.",
    question: (label, text) => `${label}) ${text}`,
    of_question: (act, question) => `${act}: ${question}`,
    other: "Aufgabe austauschen",
    keep: "Behalten",
    kept: " (behalten)",
    let_change: "Nicht mehr behalten",
    waiting: "Die Blätter kommen, sobald die Seite bereit ist.",
  },
  in_class: {
    says:
      "Die Stunde auf dem ganzen Bildschirm, für den Beamer: eins nach dem anderen, weiter mit einer " +
      "Taste, einem Presenter oder einem Klick.",
    begin: "Beginnen",
    go_on: (part) => `Weiter mit: ${part}`,
    plan: "Bei einem beliebigen Teil beginnen",
    keys_are: "Tasten",
    keys: [
      ["→ Bild ab Leertaste", "weiter (oder klicken)"],
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
      "der zweiten Spalte j, wo alles richtig war, - oder fehlt, wenn es nicht da war. Mit den " +
      "Pfeiltasten, Eingabe und Tab zur nächsten Zelle; Esc verlässt die Tabelle. Zellen aus einer " +
      "Tabellenkalkulation lassen sich einfügen, leere als richtig; Zellen aus marks.csv, wo leer " +
      "„kein Ergebnis“ heißt, mit der ersten Zeile.",
    pupils: "Kinder",
    begin: "Ergebnisse eintippen",
    open: "Auswertungsbogen öffnen …",
    forget: "Alle Ergebnisse löschen",
    forget_sure: "Noch einmal drücken, um alle zu löschen",
    forgotten: "Alle Ergebnisse sind gelöscht.",
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
    cell: (row, column) => `Zeile ${row}, ${column}`,
    cell_of: (pupil, column) => `Kind ${pupil}, ${column}:`,
    cell_is: (pupil, is) => `${pupil}: ${is}`,
    question_of: (part, letter) => `${part} ${letter}`,
    of_pupil: (pupil) => `Kind ${pupil}`,
    question: ({ name, asked, reply }) => `${name.replaceAll(".", " ")}: ${asked} ${reply}`,
    no_sheet: (typed, names) =>
      `kein Blatt heißt ${typed}; ${names.join(", ")} oder den Anfang davon schreiben`,
    which_sheet: (names) =>
      `welches Blatt hatte das Kind? ${names.join(", ")} oder fehlt schreiben`,
    no_question: "dieses Blatt hat keine solche Aufgabe; sie bleibt außer Acht",
    without_sheet: (number) =>
      number === 1
        ? "Für 1 Kind ist noch kein Übungsblatt eingetragen. Für dieses eintragen:"
        : `Für ${counted(number)} Kinder ist noch kein Übungsblatt eingetragen. Für alle eintragen:`,
    in_turn: (tier) => `${tier}, die Versionen reihum`,
    nothing_yet: "Was die Ergebnisse sagen, steht hier, sobald etwas eingetippt ist.",
    pasted: "was eingefügt wurde",
    opened: (name) => `Geöffnet: ${name}`,
    too_large: (name) =>
      `${name} ist zu groß für einen Auswertungsbogen; die marks.csv dieser Stunde öffnen`,
    not_saved: "Die Ergebnisse hier sind nicht gespeichert.",
    replace: (name) => `Ersetzen durch: ${name}`,
    keep: "Diese Ergebnisse behalten",
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
    who: (pupils) => ` (${pupils.length}): ${pupils.join(", ")}`,
    absent: (pupils) => `Abwesend: ${pupils.join(", ")}`,
    reteach: "Noch einmal unterrichten",
    no_reteach:
      "Keine Stufe muss noch einmal unterrichtet werden: Auf jeder sind mindestens drei Fünftel der " +
      "Ergebnisse richtig.",
    rungs: "Wie es mit jeder Stufe ging",
    right_of: (right, of) => `${counted(right)} von ${counted(of)} richtig`,
  },
  find: {
    says:
      "Jede Seite eines Blatts trägt am Fuß einen Code. Ihn eintippen oder das PDF des Blatts auf " +
      "diese Seite ziehen: Hier stehen seine Ergebnisse und seine Stunde.",
    code: "Code",
    find: "Finden",
    looking: "Wird gesucht …",
    or: "oder",
    open: "PDF öffnen …",
    too_large: (name) =>
      `${name} ist zu groß für ein Blatt; ein hier gespeichertes PDF öffnen oder den Code an seinem ` +
      "Fuß eintippen",
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
    copy_yourself: "Strg+C drücken (am Mac Cmd+C), um den markierten Link zu kopieren.",
    link: "Link zu dieser Stunde",
    save_spec: "Stunde speichern",
    too_long: "Der Link ist zu lang für eine Stunde; stattdessen um die Datei der Stunde bitten.",
    damaged: "Der Link enthält keine Stunde: Vielleicht fehlt ein Stück. Noch einmal ganz kopieren.",
  },
};
