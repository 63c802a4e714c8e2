"""A spec changed by controls: the changed value changes, and nothing else in the text does."""

import contextlib
import difflib
import random
import re
from collections.abc import Callable

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.vocabulary import VOCABULARY
from layouts.planning.wording import section_heading
from rungsheet.desk import editing, packs, specs
from rungsheet.desk.problems import Refused
from specs.ladder import rung_words
from specs.spec import Spec

LESSON = """\
# Beans and peas, weighed.
title: Weighing beans: first go   # shown on every sheet

ladder:

  # 0.5 + 1.25
  Beans:
    operation: addition
    places: {ragged: [1, 2]}   # not all alike
    carry:
      # one or two
      count: 1 to 2
      across_point: false  # not here

  # 3.2 - 1.4
  crates: {operation: subtract, places: 1, exchanges: {count: 1}}

  # three lines
  # of comment
  trays:
    operation: multiply   # by hand
    digits: [2, 1]
    places: [1, 0]

# what opens it
starter: {minutes: 5, questions: {crates: 2}}
examples: [beans, crates]   # in this order
tiers:
  core: {beans: 4, crates: 2}
  stretch:   # for those who are done
    minutes: 12
    questions:
      trays: 3
      beans: 1  # one more
"""


def read(text: str) -> Spec:
    return specs.read(text)


def changes(before: str, after: str) -> list[str]:
    """The lines that went and came, as a diff shows them."""
    lines = difflib.unified_diff(before.splitlines(), after.splitlines(), n=0, lineterm="")
    return [line for line in lines if not line.startswith(("---", "+++", "@@"))]


def edited(change: Callable[..., str], *given: object) -> list[str]:
    return changes(LESSON, change(LESSON, *given))


def test_a_value_is_changed_where_it_stands() -> None:
    assert edited(editing.set_word, "crates", "places", 2) == [
        "-  crates: {operation: subtract, places: 1, exchanges: {count: 1}}",
        "+  crates: {operation: subtract, places: 2, exchanges: {count: 1}}",
    ]
    assert edited(editing.set_word, "trays", "places", [2, 0]) == [
        "-    places: [1, 0]",
        "+    places: [2, 0]",
    ]
    assert edited(editing.set_title, 'Peas: "fresh"') == [
        "-title: Weighing beans: first go   # shown on every sheet",
        '+title: "Peas: \\"fresh\\""   # shown on every sheet',
    ]


def test_of_words_in_braces_only_those_change_that_are_others() -> None:
    told = {"count": [1, 2], "across_point": True}
    assert edited(editing.set_word, "beans", "carries", told) == [
        "-      across_point: false  # not here",
        "+      across_point: true  # not here",
    ]
    assert edited(editing.set_word, "beans", "carries", {"count": 1, "across_point": False}) == [
        "-      count: 1 to 2",
        "+      count: 1",
    ]
    assert edited(editing.set_word, "beans", "carries", {"across_point": False}) == [
        "-      count: 1 to 2",
    ]


def test_words_come_and_go() -> None:
    assert edited(editing.set_word, "trays", "carries", "some") == ["+    carries: some"]
    assert edited(editing.set_word, "beans", "addends", 3) == ["+    addends: 3"]
    assert edited(editing.set_word, "crates", "exchanges", None) == [
        "-  crates: {operation: subtract, places: 1, exchanges: {count: 1}}",
        "+  crates: {operation: subtract, places: 1}",
    ]
    assert edited(editing.set_word, "trays", "form", "missing number") == [
        "+    form: missing number"
    ]


def test_questions_are_counted_in_each_section() -> None:
    assert edited(editing.set_count, "core", "beans", 3) == [
        "-  core: {beans: 4, crates: 2}",
        "+  core: {beans: 3, crates: 2}",
    ]
    assert edited(editing.set_count, "core", "trays", 1) == [
        "-  core: {beans: 4, crates: 2}",
        "+  core: {beans: 4, crates: 2, trays: 1}",
    ]
    assert edited(editing.set_count, "stretch", "beans", 0) == ["-      beans: 1  # one more"]
    assert edited(editing.set_count, "examples", "trays", 1) == [
        "-examples: [beans, crates]   # in this order",
        "+examples: [beans, crates, trays]   # in this order",
    ]
    assert edited(editing.set_count, "examples", "beans", 0) == [
        "-examples: [beans, crates]   # in this order",
        "+examples: [crates]   # in this order",
    ]
    assert edited(editing.set_count, "examples", "beans", 2) == [
        "-examples: [beans, crates]   # in this order",
        "+examples: {beans: 2, crates: 1}   # in this order",
    ]
    assert edited(editing.set_count, "support", "beans", 4) == ["+  support: {beans: 4}"]
    assert edited(editing.set_count, "starter", "crates", 0) == [
        "-",
        "-# what opens it",
        "-starter: {minutes: 5, questions: {crates: 2}}",
    ]


def test_sections_have_their_minutes() -> None:
    assert edited(editing.set_minutes, "core", 15) == [
        "-  core: {beans: 4, crates: 2}",
        "+  core: {minutes: 15, questions: {beans: 4, crates: 2}}",
    ]
    assert edited(editing.set_minutes, "stretch", 9) == ["-    minutes: 12", "+    minutes: 9"]
    assert edited(editing.set_minutes, "starter", None) == [
        "-starter: {minutes: 5, questions: {crates: 2}}",
        "+starter: {questions: {crates: 2}}",
    ]


def test_sections_are_called_as_their_pages_call_them() -> None:
    def called(language: str) -> list[str]:
        text = specs.shipped_text() + f"\npages: {{language: {language}}}\n"
        return [part["heading"] for part in editing.parts(specs.read(text))]

    assert called("English")[:3] == ["Starter", "Worked examples", "Support practice"]
    assert called("German")[:3] == ["Einstieg", "Beispiele", "Übung Support"]


def test_sections_are_called_in_the_table_as_on_their_sheets() -> None:
    """Several exit questions are not one; what a teacher calls a section comes before both."""
    for words in ("{trays: 1}", "{trays: 2}", "{shown_as: Sheet A, questions: {trays: 2}}"):
        exits = f"lesson:\n  - examples: [crates]\n  - exit: {words}\n"
        spec = specs.read(LESSON.split("# what opens it")[0] + exits)
        sheets = [section_heading(section) for section in packs.build(spec).worked]
        assert [part["heading"] for part in editing.parts(spec)] == sheets


def test_sections_find_out_every_habit_or_take_questions_as_they_come() -> None:
    assert edited(editing.set_finding_out, "core", True) == [
        "-  core: {beans: 4, crates: 2}",
        "+  core: {finds_out: every habit, questions: {beans: 4, crates: 2}}",
    ]
    assert edited(editing.set_finding_out, "starter", True) == [
        "-starter: {minutes: 5, questions: {crates: 2}}",
        "+starter: {minutes: 5, finds_out: every habit, questions: {crates: 2}}",
    ]
    assert edited(editing.set_finding_out, "starter", False) == []
    asked = editing.set_finding_out(LESSON, "stretch", True)
    assert changes(LESSON, asked) == ["+    finds_out: every habit"]
    assert editing.set_finding_out(asked, "stretch", False) == LESSON
    with pytest.raises(Refused, match="goes with no rung of 'starter'"):
        editing.set_finding_out(
            editing.set_word(LESSON, "crates", "form", "missing digit"), "starter", True
        )


def test_pages_are_asked_for() -> None:
    assert edited(editing.set_page, "paper", "A5") == ["+pages: {paper: A5}"]
    a5 = editing.set_page(LESSON, "paper", "A5")
    assert editing.set_page(a5, "paper", None) == LESSON
    assert changes(a5, editing.set_page(a5, "grid", "faint")) == [
        "-pages: {paper: A5}",
        "+pages: {paper: A5, grid: faint}",
    ]


def test_a_rung_is_called_as_the_teacher_spells_it() -> None:
    text = specs.shipped_text("five-addends")
    spelt = editing.rename_rung(text, "two-numbers", "Übertrag  über das Komma")
    (first, *_) = specs.read(spelt).ladder
    assert (first.name, first.shown_as) == ("uebertrag-ueber-das-komma", "Übertrag über das Komma")
    assert editing.rename_rung(spelt, first.name, "Two numbers") == text
    added = specs.read(editing.add_rung(text, "Größer als 10", "subtract")).ladder[-1]
    assert (added.name, added.shown_as) == ("groesser-als-10", "Größer als 10")
    own = editing.set_word(text, "two-numbers", "shown_as", "Sheet A")
    (first, *_) = specs.read(editing.rename_rung(own, "two-numbers", "Übung")).ladder
    assert (first.name, first.shown_as) == ("uebung", "Sheet A")


def test_a_plainer_spelling_takes_the_older_one_away() -> None:
    text = specs.shipped_text("five-addends")
    umlauts = editing.rename_rung(text, "two-numbers", "Übertrag")
    plain = editing.rename_rung(umlauts, "uebertrag", "Uebertrag")
    assert [rung.shown_as for rung in specs.read(plain).ladder[:1]] == [""]
    assert editing.rename_rung(plain, "uebertrag", "Übertrag") == umlauts
    capitals = editing.rename_rung(umlauts, "uebertrag", "UEBERTRAG")
    assert specs.read(capitals).ladder[0].shown_as == "UEBERTRAG"
    key = text.replace("two-numbers", "Übertrag")
    for name in ("Ubertrag", "Uebertrag", "Übertrag"):
        (first, *_) = specs.read(editing.rename_rung(key, "ubertrag", name)).ladder
        assert (first.seen_as or first.name.capitalize()) == name


def test_a_new_tier_is_headed_as_the_teacher_spells_it() -> None:
    def added(name: str, text: str = LESSON) -> str:
        spec = specs.read(editing.set_count(text, name, "beans", 2))
        return str(editing.parts(spec)[-1]["heading"])

    assert added("Förderung") == "Förderung practice"
    assert added("Förderung", LESSON + "pages: {language: German}\n") == "Übung Förderung"
    assert added("Extra") == "Extra practice"
    assert (
        added("Für alle, die schon längst fertig sind")
        == "Fuer alle die schon laengst fertig sind practice"
    )
    once = editing.set_count(LESSON, "Förderung", "beans", 2)
    assert changes(once, editing.set_count(once, "foerderung", "crates", 1)) == [
        '-  foerderung: {shown_as: "Förderung practice", questions: {beans: 2}}',
        '+  foerderung: {shown_as: "Förderung practice", questions: {beans: 2, crates: 1}}',
    ]


def test_rungs_are_added_copied_moved_named_and_removed() -> None:
    trays = (
        "  trays:\n    operation: multiply   # by hand\n    digits: [2, 1]\n    places: [1, 0]\n"
    )
    ten = "\n  ten-peas:\n    operation: divide\n"
    added = editing.add_rung(LESSON, "Ten peas", "divide")
    assert added == LESSON.replace(trays, trays + ten)
    again = "\n" + trays.replace("trays", "trays-2")
    assert editing.copy_rung(LESSON, "trays") == LESSON.replace(trays, trays + again)
    moved = editing.move_rung(LESSON, "trays", -1)
    assert [rung.name for rung in read(moved).ladder] == ["beans", "trays", "crates"]
    assert "  # three lines\n  # of comment\n  trays:" in moved
    assert "  # 3.2 - 1.4\n  crates:" in moved
    assert editing.move_rung(moved, "trays", 1) == LESSON
    assert editing.move_rung(LESSON, "trays", 1) == LESSON
    named = editing.rename_rung(LESSON, "beans", "runner beans")
    assert named == re.sub(r"\b[Bb]eans(?=:(?! first)|,)", "runner-beans", LESSON)
    gone = editing.remove_rung(LESSON, "crates")
    assert [rung.name for rung in read(gone).ladder] == ["beans", "trays"]
    assert "crates" not in gone
    assert "starter" not in gone
    assert "# 3.2" not in gone


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (lambda: editing.set_word(LESSON, "crates", "places", 0), "no question"),
        (lambda: editing.set_word(LESSON, "crates", "places", "many"), "cannot be 'many'"),
        (lambda: editing.rename_rung(LESSON, "crates", "beans"), "another rung"),
        (lambda: editing.add_rung(LESSON, "?!", "add"), "cannot be the name"),
        (lambda: editing.set_count(LESSON, "core", "beans", 99), "cannot be 99"),
        (lambda: editing.set_title(LESSON, "x" * 200), "200 characters"),
    ],
)
def test_what_cannot_be_is_refused_with_the_reason(change: Callable[[], str], told: str) -> None:
    with pytest.raises(Refused, match=told):
        change()


COMMENT = re.compile(r"#[^\n]*")


@settings(max_examples=120, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.sampled_from(specs.shipped_names()), st.integers(0, 2**32))
@pytest.mark.slow
def test_any_word_of_any_rung_changes_alone(name: str, seed: int) -> None:
    """What the controls offer, put into the specs that ship: the spec that is read again is the
    old one with that one value, every comment stays, and back again is the same spec.
    """
    chance = random.Random(seed)
    text = specs.shipped_text(name)
    spec = read(text)
    rung = chance.choice(spec.ladder)
    words = rung_words(rung.operation, VOCABULARY)
    word = chance.choice([word for word in words if word != "operation"])
    shape = words[word].shape
    now = editing.said_by(rung).get(word)
    value = chance.choice([None, 0, 1, 2, 3, [1, 2], [1, 0], {"between": [1, 2]}, *shape.words])
    try:
        changed = editing.set_word(text, rung.name, word, value)
    except Refused:
        return
    after = read(changed)
    assert COMMENT.findall(changed) == COMMENT.findall(text)
    assert [one.name for one in after.ladder] == [one.name for one in spec.ladder]
    for old, new in zip(spec.ladder, after.ladder, strict=True):
        said, before = editing.said_by(new), editing.said_by(old)
        if old.name == rung.name:
            said.pop(word, None)
            before.pop(word, None)
        assert said == before
    for part in ("title", "starter", "examples", "tiers", "presentation", "avoid", "matching"):
        assert getattr(after, part) == getattr(spec, part)
    assert len(changes(text, changed)) <= 2 + text.count("\n")
    back = editing.set_word(changed, rung.name, word, now)
    assert read(back) == spec


def test_parts_of_a_lesson_are_changed_where_they_stand_though_the_short_form_says_as_much() -> (
    None
):
    parts = LESSON.split("# what opens it")[0] + (
        "lesson:\n  - starter: {crates: 2}\n  - practice:\n      tiers:\n"
        "        core: {beans: 4, crates: 2}\n        stretch: {trays: 3}\n"
    )
    assert not read(parts).lesson
    assert changes(parts, editing.set_minutes(parts, "core", 9)) == [
        "-        core: {beans: 4, crates: 2}",
        "+        core: {minutes: 9, questions: {beans: 4, crates: 2}}",
    ]
    assert changes(parts, editing.set_finding_out(parts, "starter", True)) == [
        "-  - starter: {crates: 2}",
        "+  - starter: {finds_out: every habit, questions: {crates: 2}}",
    ]
    assert [part["name"] for part in editing.parts(read(parts))] == ["starter", "core", "stretch"]


EACH_FORM = """\
title: Weighing beans
ladder:
  Level places: {operation: add, places: 1, whole: 1}
  ragged: {operation: add, places: {ragged: [1, 2]}}
  trays: {operation: multiply, digits: [2, 1], places: [1, 0]}
  cases: {operation: multiply, digits: [2, 1], places: 0}
lesson:
  - starter: {questions: [{level places: 3, trays: 1}, {ragged: 2}, {"Level places": 1}]}
  - examples: ["Level places", {rung: ragged, question: 3.4 + 0.25}, trays]
  - examples:
      questions:
        - Level places   # as it was
        - run: [trays, "cases"]
          keep: digits
        - ragged
  - practice:
      frames: {Level places: full}
      tiers:
        core: {questions: [{trays: 2}, {run: [trays, cases, trays], Keep: digits}]}
        stretch:
          frames: {ragged: numbers}
          questions:
            - trays: 1
              ragged: 2
            - cases: 2   # at the end
  - exit: {level-places: 1}
"""


def asked(text: str, *, calling: dict[str, str] | None = None) -> list[list[tuple[object, ...]]]:
    """What each section takes from which rung, rungs called otherwise where they are."""
    called = calling or {}
    return [
        [
            (called.get(one.rung, one.rung), one.count, one.question, one.run and one.run.keep)
            for one in section.shares
        ]
        for section in read(text).sections
    ]


def renames(text: str) -> None:
    """Every rung is renamed wherever it stands, and nothing else changes."""
    for rung in read(text).ladder:
        renamed = editing.rename_rung(text, rung.name, "Another name")
        assert asked(renamed) == asked(text, calling={rung.name: "another-name"})
        assert COMMENT.findall(renamed) == COMMENT.findall(text)
        assert len(renamed.splitlines()) == len(text.splitlines())


def test_a_rung_is_renamed_in_lists_in_runs_and_beside_questions_of_the_teachers_own() -> None:
    renames(EACH_FORM)
    grid = specs.shipped_text("multiplying-by-the-grid")
    spelt = editing.rename_rung(grid, "ones-and-tenths", "Einer und Zehntel über zehn")
    assert "{run: [einer-und-zehntel-ueber-zehn, four-boxes], keep: first number}" in spelt


def test_questions_in_turn_are_counted_where_they_stand() -> None:
    def counted(section: str, rung: str, count: int) -> list[str]:
        return changes(EACH_FORM, editing.set_count(EACH_FORM, section, rung, count))

    listed = (
        '  - starter: {questions: [{level places: 3, trays: 1}, {ragged: 2}, {"Level places": 1}]}'
    )
    for rung, count, then in (
        ("ragged", 0, '[{level places: 3, trays: 1}, {"Level places": 1}]'),
        ("ragged", 4, '[{level places: 3, trays: 1}, {ragged: 4}, {"Level places": 1}]'),
        ("level-places", 0, "[{trays: 1}, {ragged: 2}]"),
        (
            "cases",
            1,
            '[{level places: 3, trays: 1}, {ragged: 2}, {"Level places": 1}, {cases: 1}]',
        ),
    ):
        assert counted("starter", rung, count) == [
            f"-{listed}",
            f"+  - starter: {{questions: {then}}}",
        ]
    assert counted("stretch", "trays", 0) == [
        "-            - trays: 1",
        "-              ragged: 2",
        "+            - ragged: 2",
    ]
    assert counted("stretch", "cases", 0) == ["-            - cases: 2   # at the end"]
    assert counted("stretch", "level-places", 2) == ["+            - {level-places: 2}"]
    with pytest.raises(Refused, match="in a way that only you can change"):  # which of the two?
        counted("starter", "level-places", 2)
    with pytest.raises(Refused, match="a run, or a question of your own"):
        counted("core", "trays", 1)


@pytest.mark.slow
@pytest.mark.parametrize("name", ["", *specs.shipped_names()])
def test_every_change_of_every_rung_and_section_is_made_or_refused(name: str) -> None:
    """Whatever form a lesson's questions have, what a control does reads again, counts what it was
    to count, or is refused: no other error escapes.
    """
    text = specs.shipped_text(name) if name else EACH_FORM
    renames(text)
    spec = read(text)
    sections = [str(part["name"]) for part in editing.parts(spec)]
    rungs = [rung.name for rung in spec.ladder]
    tried: list[tuple[Callable[..., str], tuple[object, ...]]] = [
        *((editing.remove_rung, (rung,)) for rung in rungs),
        *((editing.copy_rung, (rung,)) for rung in rungs),
        *((editing.move_rung, (rung, by)) for rung in rungs for by in (-1, 1)),
        *((editing.set_operation, (rung, to)) for rung in rungs for to in ("subtract", "order")),
        *(
            (editing.set_word, (rung, word, to))
            for rung in rungs
            for word, to in (("form", "missing number"), ("carries", "some"), ("shown_as", "A"))
        ),
        *((editing.remove_tier, (section,)) for section in sections),
        *((editing.set_minutes, (section, to)) for section in sections for to in (None, 7)),
        *((editing.set_finding_out, (section, to)) for section in sections for to in (True, False)),
        *(
            (editing.set_frames, (section, to))
            for section in sections
            for to in (None, "full", {rungs[0]: "full"})
        ),
        *((editing.set_section_word, (section, "shown_as", "A")) for section in sections),
        *(
            (editing.set_method, (section, "multiply", to))
            for section in sections
            for to in ("grid", None)
        ),
    ]
    for change, given_ in tried:
        with contextlib.suppress(Refused):
            read(change(text, *given_))
    for section in sections:
        for rung in rungs:
            for count in (0, 1, 2):
                with contextlib.suppress(Refused):
                    changed = editing.set_count(text, section, rung, count)
                    then = [one for one in read(changed).sections if one.name == section]
                    shares = [share for one in then for share in one.shares]
                    assert sum(share.count for share in shares if share.rung == rung) == count
