"""Whatever a reader says of a spec or of a mark sheet can be said in another language.

In nobody's language (see ``tests.untranslated``) nothing of a message is left in Latin letters but
what stands so in the file: words in quotes, YAML in brackets, names, and words of a spec.
"""

import re
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest
from babel.messages.extract import extract_from_dir

from generator.vocabulary import VOCABULARY
from specs import SpecError, load_spec, read_spec
from specs.changing import CannotChangeError
from specs.csv_rows import MOST_CELLS
from specs.ladder import BESIDE, OPERATION
from specs.languages.language import language
from specs.languages.saying import Saying, say
from specs.looks import Look
from specs.marks import LARGEST as LARGEST_SHEET
from specs.marks import MarksError, MarksProblem, read_marks
from specs.missing import COLUMNS, NUMBERS
from specs.names import SECTION_WORDS
from specs.own_contexts import LARGEST as LARGEST_CONTEXTS
from specs.problems import Problem
from specs.replies import A_NUMBER, A_SIGN, NUMBER, ORDER, Asked
from specs.spec import KINDS
from specs.tints import TINTS
from specs.wrong_only import Sheets, read_wrong_only
from specs.yaml_text import LARGEST
from tests.catalogues import KEYWORDS, ROOT, TRANSLATED
from tests.untranslated import NOBODYS, not_sayings

WELL = """\
title: Zz
ladder:
  zza: {operation: add, places: 1, whole: 1}
  zzb: {operation: subtract, places: 1, whole: 1}
starter: {zza: 2}
"""
RUNG = "title: Zz\nstarter: {zza: 1}\nladder:\n  zza: "
LADDER = "".join(WELL.splitlines(keepends=True)[:4])
LESSON = f"{LADDER}lesson:\n"
TWO = "{zza: {questions: {zza: 1}}, zzb: {questions: {zzb: 1}}}"
MANY = "".join(f"  zz{at}: {{operation: add, places: 1, whole: 1}}\n" for at in range(61))

SPECS = (
    # No YAML, or none that a spec may be.
    b"",
    b"- zz\n",
    b"title: Zz\ntitle: Qq\n",
    b"title:\n\tzz: 1\n",
    b"title:\t1\n",
    b"title: &zz 1\nladder: *zz\n",
    b"title: !!str 1\n",
    b"title: 1\n---\nladder: 2\n",
    b"title: \xff\n",
    b"title: \x07\n",
    "title:\n\u00a0 zz: 1\n".encode(),
    b"title Zz\nladder:\n",
    b"title: 1\n" + b"#" * LARGEST,
    b"title: " + b"[" * 20,
    b"title: 1\nladder: [1, 2\nstarter: 3\n",
    b"title: 1\nladder: 'zz\nstarter: 3\n",
    b"matching: zz: qq\n",
    b"ladder:\n  zz: 1\n qq: 2\n",
    b"title: 1\nzz\n",
    b"title: @zz\n",
    b"title: *\n",
    b'title: "\\q"\n',
    b'title: "\\UFFFFFFFF"\n',
    b"? [zz]\n: qq\n",
    b"title: ]\n",
    b"title: |x\n",
    b"title: - zz\n",
    # The whole.
    "ladder: {zza: {operation: add}}\n",
    "title: Zz\nstarter: {zza: 2}\n",
    LADDER,
    f"{WELL}zzc: {{operation: add, places: 1}}\n",
    f"{LESSON}  - starter: {{zza: 1}}\nstarter: {{zza: 1}}\ntiers: {{zza: {{zza: 1}}}}\n",
    f"{WELL}Title: Qq\n",
    # Rungs.
    "title: Zz\nladder: zz\nstarter: {zz: 1}\n",
    "title: Zz\nladder: {}\nstarter: {zz: 1}\n",
    f"title: Zz\nladder:\n{MANY}starter: {{zz1: 1}}\n",
    f"{RUNG}{{}}\n",
    f"{RUNG}{{places: 1}}\n",
    f"{RUNG}{{operation: zzz}}\n",
    f"{RUNG}{{operation: }}\n",
    f"{RUNG}{{operation: sbutract}}\n",
    f"{RUNG}\n  operation: add\n  places: 1\n",
    f"{RUNG}{{operation: add, exchanges: some}}\n",
    f"{RUNG}{{operation: add, qqqqqq: 1}}\n",
    f"{RUNG}{{operation: add, exchnges: some}}\n",
    f"{RUNG}{{operation: add, places: 1, Places: 2}}\n",
    f"{RUNG}{{operation: order, form: missing digit}}\n",
    f"{RUNG}{{operation: order, missing: first}}\n",
    f"{RUNG}{{operation: order, context: any}}\n",
    f"{RUNG}{{operation: add, places: 1, form: spot the mistake, missing: first}}\n",
    f"{RUNG}{{operation: add, places: 1, form: missing number, context: any}}\n",
    "title: Zz\nladder:\n  questions: {operation: add}\n  con: {operation: add}\n  ä§: 1\n",
    "title: Zz\nladder:\n  zz: {operation: add}\n  Zz: {operation: add}\n",
    f"{LADDER}tiers: {{'§': {{zza: 1}}, starter: {{zza: 1}}}}\n",
    f"{RUNG}{{operation: subtract, context: own}}\n",
    # Words of rungs together.
    f"{RUNG}{{operation: add, whole: 9, places: 3}}\n",
    f"{RUNG}{{operation: add, places: [1, 2, 1]}}\n",
    f"{RUNG}{{operation: add, third: 1.1}}\n",
    f"{RUNG}{{operation: add, first: 1.123}}\n",
    f"{RUNG}{{operation: add, first: 123.1, second: 1}}\n",
    f"{RUNG}{{operation: multiply, digits: 4}}\n",
    f"{RUNG}{{operation: multiply, factors: 3, digits: 3}}\n",
    f"{RUNG}{{operation: multiply, places: 4}}\n",
    f"{RUNG}{{operation: multiply, first: 1.2345, second: 123}}\n",
    f"{RUNG}{{operation: multiply, power_of_ten: ten, places: 1}}\n",
    f"{RUNG}{{operation: divide, ending: remainder, places: 1}}\n",
    f"{RUNG}{{operation: divide, ending: fraction, divisor_places: 1}}\n",
    f"{RUNG}{{operation: divide, places: 6, ending: {{decimal: 2}}}}\n",
    f"{RUNG}{{operation: divide, dividend: 8, divisor_places: 3}}\n",
    f"{RUNG}{{operation: divide, first: 1.2345, second: 1.23}}\n",
    f"{RUNG}{{operation: add, tells_apart: carry dropped, form: missing number}}\n",
    f"{RUNG}{{operation: add, worked_by: carry dropped}}\n",
    # What stands behind a word.
    f"{RUNG}{{operation: add, addends: 2 3, places: '1', whole: }}\n",
    f"{RUNG}{{operation: add, carries: {{count: [1 2]}}, answer: {{places: [2, 1]}}}}\n",
    f"{WELL}pages: {{large: []}}\nqqqqqq: 1\n",
    f"{RUNG}{{operation: add, places: [1 2], whole: {{}}, carries: []}}\n",
    f"{RUNG}{{operation: add, whole: [2, 1], carries: {{qqqqqq: 1}}, zeros: {{insid: allow}}}}\n",
    f"{RUNG}{{operation: add, places: {{same: 1, ragged: [1, 2]}}, whole: [{'1, ' * 7}]}}\n",
    f"{RUNG}{{operation: add, carries: {{in: [tens, tens]}}, repeats: qqqqqq}}\n",
    f"{RUNG}{{operation: add, missing: {{of: first}}, answer: {{above: zz, places: zz}}}}\n",
    f"{RUNG}{{operation: add, first: zz, carries: {{zz}}, zeros: [1, 2], places: {{zz: 1}}}}\n",
    f"{RUNG}{{operation: divide, divisor: {{zz: 1}}, ending: [1], dividend: {{zz: 1}}}}\n",
    f"{RUNG}{{operation: multiply, power_of_ten: 7, zeros: 1}}\n",
    f"{RUNG}{{operation: order, same_to: qqqqqq, places: zz, numbers: 9}}\n",
    f"{RUNG}{{operation: add, shown_as: {'z' * 90}}}\n",
    f"{RUNG}{{operation: add, shown_as: 'z\u00ad'}}\n",
    f"{WELL}pages: {{large: 3, duplex: zz, tint: {{zz: 1}}}}\n",
    # Sections.
    "title: Zz\nladder: {'z\u00ad': 1}\nstarter: {zz: 1}\n",
    f"{LADDER}starter: {{zzc: 1}}\nexamples: [qqqq]\n",
    f"{LADDER}starter: {{}}\n",
    f"{LADDER}starter: {{questions: {{}}}}\n",
    f"{LADDER}starter: {{zza 3}}\n",
    f"{LADDER}starter: {{zza: 2, minutes: 3}}\n",
    f"{LADDER}starter: {{zza: 40, zzb: 30}}\n",
    f"{LADDER}starter: {{questions: [{{run: [zza], keep: first number}}]}}\n",
    f"{LADDER}starter: {{questions: [zza]}}\n",
    f"{LADDER}starter: {{questions: {{zza: 1}}, frames: {{zzc: none}}}}\n",
    f"{LADDER}examples: zza, zzb\n",
    f"{LADDER}examples: 3\n",
    f"{LADDER}examples: [[zza]]\n",
    f"{LADDER}examples: [zza, zza]\n",
    f"{LADDER}examples: [{{rung: zza, question: zz}}, {{rung: [1], question: 1.1 + 1.1}}]\n",
    f"{LADDER}examples: [{{zza: 1}}]\n",
    f"{LADDER}tiers: {{}}\n",
    f"{LADDER}tiers: {{{', '.join(f't{at}: {{zza: 1}}' for at in range(13))}}}\n",
    f"{LADDER}starter: {{finds_out: every habit, questions: {{zza: 1}}}}\n".replace(
        "whole: 1}", "whole: 1, form: spot the mistake}"
    ),
    f"{LADDER}starter: {{tells_apart: carry dropped, questions: {{zza: 1}}}}\n".replace(
        "whole: 1}", "whole: 1, form: spot the mistake}"
    ),
    f"{LADDER}starter: {{tells_apart: smaller digit taken from larger, questions: {{zza: 1}}}}\n",
    # A lesson.
    f"{LADDER}lesson: {{}}\n",
    LESSON + "  - starter: {zza: 1}\n" * 21,
    f"{LESSON}  - zz\n  - {{}}\n",
    f"{LESSON}  - starter: {{zza: 1}}\n    exit: {{zza: 1}}\n",
    f"{LESSON}  - starter:\n    minutes: 3\n",
    f"{LESSON}  - qqqqqq: {{zza: 1}}\n",
    f"{LESSON}  - practice: {{tiers: {TWO}, tells_apart: carry dropped}}\n",
    f"{LESSON}  - practice: {{tiers: {TWO.replace('{q', '{finds_out: every habit, q')}, "
    "finds_out: every habit}\n",
    f"{LESSON}  - exit: {{zza: 1}}\n  - practice: {{tiers: {{exit: {{zza: 1}}}}}}\n",
    # Pages and methods.
    f"{LADDER}examples: [zza]\nversions: {{zz: 3}}\n",
    f"{WELL}pages: {{large: {{zz: 18}}}}\nversions: {{startre: 3}}\n",
    f"{WELL}pages: {{subtraction: exchange}}\nmethods: {{subtract: equal addition}}\n",
    # Questions avoided and kept.
    f"{WELL}avoid: [zz, [1]]\n",
    f"{WELL}avoid: zz\n",
    f"{WELL}avoid: [{'1.1 + 1.1, ' * 21}]\n",
    f"{WELL}keep: zz\n",
    f"{WELL}keep: {{starter: {{}}}}\n",
    f"{WELL}keep: {{starter: {{A1: '1.1 + 1.1', a: zz, b: [1]}}}}\n",
    f"{WELL}examples: [zza]\nkeep: {{startr: {{a: '1.1 + 1.1'}}, starter: {{z: '1.1 + 1.1'}}, "
    "examples: {b: '1.1 + 1.1'}}\n",
    # Earlier specs.
    f"{LADDER}starter: {{earlier: {{last.yaml: 2, zz: 1}}}}\n",
    f"{LADDER}starter: {{earlier: zz}}\n",
    f"{LADDER}starter: {{earlier: {{{', '.join(f'z{at}.yaml: 1' for at in range(13))}}}}}\n",
)
"""Each is wrong; some in several ways."""

SENTENCE = 'kind: money, operation: add, says: "Zz {all}", answer: {unit: £}'
EACH = f"{SENTENCE}, each: {{unit: £}}"
TWO_NUMBERS = SENTENCE.replace("{all}", "{first} {second}") + ", numbers: [{unit: £}, {unit: £}]"
CONTEXTS = (
    "zz",
    f"{{zz: {{{SENTENCE}}}}}",
    f"{{zz: {{{EACH}, numbers: [{{unit: £}}, {{unit: £}}]}}}}",
    f"{{zz: {{{EACH.replace('{all}', '{al}')}}}}}",
    f"{{zz: {{{EACH.replace(': add', ': multiply')}}}}}",
    f"{{zz: {{{TWO_NUMBERS}, left_over: {{unit: £}}}}}}",
    "{takings: {}}",
    "{'§': {}}",
    "[zz]",
    f"{{{', '.join(f'z{at}: {{}}' for at in range(21))}}}",
)
"""Below ``contexts:``."""

FILES = {
    "none.yaml": None,
    "own.yaml": f"{WELL}contexts: zz.yaml\n",
    "large.yaml": f"{WELL}contexts: large.yml\n",
    "large.yml": "#" * (LARGEST_CONTEXTS + 1),
    "bytes.yaml": f"{WELL}contexts: bytes.yml\n",
    "bytes.yml": b"\xff",
    "empty.yaml": f"{WELL}contexts: empty.yml\n",
    "empty.yml": "\n",
    "no-other.yaml": f"{LADDER}starter: {{earlier: {{zz.yaml: 1}}}}\n",
    "no-ladder.yaml": f"{LADDER}starter: {{earlier: {{bare.yml: 1, empty.yml: 1}}}}\n",
    "bare.yml": "title: Zz\n",
    "no-rung.yaml": f"{LADDER}starter: {{earlier: {{well.yaml: {{zzc: 1}}}}}}\n",
    "well.yaml": WELL,
    "many.yaml": f"title: Zz\nladder:\n{MANY}starter: {{earlier: {{well.yaml: 1}}}}\n".replace(
        "  zz0: {operation: add, places: 1, whole: 1}\n", ""
    ),
    "alike.yaml": f"{LADDER}  well-zza: {{operation: add}}\n"
    "starter: {earlier: {well.yaml: 1}}\n",
    "a-folder.yaml": ...,
    "x" * 300: None,
    "a\0b": None,
}
"""Specs in files, and files that they name: their text, None for none, … for a folder."""

RIGHT = Asked(NUMBER, is_right=lambda reply: reply.value == 1234)
TENTHS = Asked(NUMBER, "kg", is_right=lambda reply: reply.value * 1000 == 1234)
ALIKE = Asked(ORDER, numbers=(1, Fraction(11, 10)), is_right=lambda reply: reply.order[0] == 1)
IN_ORDER = Asked(
    ORDER,
    numbers=(1, 2, 12),
    is_right=lambda reply: reply.order == (1, 2, 12),  # type: ignore[arg-type]
)
ASKED = {
    "core.a": RIGHT,
    "core.b": TENTHS,
    "core.c": IN_ORDER,
    "core.d": A_SIGN,
    "core.e": ALIKE,
    "part.1.a": A_NUMBER,
    "part.2.a": A_NUMBER,
}
VERSIONS = {"part.a": {1: "part.1.a", 2: "part.2.a"}}
SHEETS = (
    "",
    "zz,core.a\n1,2\n",
    "pupil,zz\n1,2\n",
    "pupil,core.a,core.x,qqqqq,core.a\n1,2,3\n",
    "pupil (ABCD-E2-A),core.a\n1,2\n",
    "pupil,core.a\n",
    "pupil,core.a\n1,3\n1,3\n",
    "pupil,core.a\n" + "".join(f"{at},3\n" for at in range(21)),
    "pupil,core.a\n" + "1,3\n" * 41,
    "pupil,core.a\nTotal,3\n,4\n\u00ad,4\n1,3,4,5\n",
    "pupil,core.b,core.a\n1,1,234\n",
    "pupil;core.e\n1;1,1,1\n",
    'pupil,core.a,core.b,core.c,core.d\n1,zz,3-4-2024,1E+5,zz\n2,3²,zz,1 2,zz\n3,"1,234"\n',
    'pupil;core.a;core.b;core.c\n1;1,234;1234 m;1 3 12\n2;3,5;"1,234";1,2,12\n3;3,5\n4;;1234 g;\n',
    'pupil,core.b,core.a\n1,"1,234","1,234"\n2,,3.5\n3,,4.5\n4,3.5\n5,4.5\n',
    "pupil,part.a\n1,2\n",
    "pupil,version,part.a\n1,3,2\n2,,2\n3,9,\n",
    "pupil,version,part.a,part.1.a\n1,1,2,2\n",
    "pupil,core.a\n" + "".join(f"{at},{at % 2}\n" for at in range(9)),
    "pupil,core.a\n1," + "," * MOST_CELLS,
    "pupil\0",
    'pupil,core.a\n1,"' + "2" * 140_000 + '"',
    "pupil".ljust(LARGEST_SHEET + 1, ","),
)
HEAD = "pupil,question,written\n"
LISTS = (
    f"{HEAD}",
    f"{HEAD}1,core.a,3\n1,core.a,4\n1,core.x,3\n1,qqqqq,3\n1,part.a,3\n1,,3\n2,core.a,1234\n",
    f"{HEAD}1,core.a,1,5\nTotal,core.a,3\n,core.a,3\n\u00ad,core.a,4\n",
    f"{HEAD}1,core.a,zz\n1,core.b,1234 m\n2,absent,\n2,core.a,3\n1 to 21,,\n",
    f"{HEAD}" + "1,,\n" * 41,
    "pupil (ABCD-E2-A),question,written\n1,core.a,2\n",
    f"{HEAD}\0",
    HEAD.ljust(LARGEST_SHEET + 1, ","),
)
PARTS = Sheets(
    {
        "core": ("core.a", "core.b", "core.c", "core.d", "core.e"),
        "part.1": ("part.1.a",),
        "part.2": ("part.2.a",),
    },
    frozenset({"core"}),
)

OWN = (
    *VOCABULARY.operations,
    *(word.name for word in VOCABULARY.words),
    *SECTION_WORDS,
    *(OPERATION, *BESIDE),
    *KINDS,
    *COLUMNS,
    *NUMBERS,
    *ASKED,
    *("title", "name-of-rung", "run", "keep", "rung", "pupil", "kind", "money", "says"),
    *("inside", "end", "allow", "forbid", "ragged", "same", "between", "count", "in", "not_in"),
    *("only", "across_point", "exact", "remainder", "fraction", "decimal", "rounded"),
    *("ten", "hundred", "thousand", *TINTS),
    *("ladder", "starter", "examples", "tiers", "lesson", "versions", "matching", "pages"),
    *("methods", "contexts", "avoid"),
    *("zza", "zzb", "zzz", "mint", "Polish"),
    *(f"zz{at}" for at in range(61)),
)
"""Words of specs and of mark sheets, which stand in the file so."""

_AS_WRITTEN = re.compile(r"(?<!\w)'[^']*'(?!\w)|\{[^}]*\}|U\+[0-9A-F]{4}")

MAKE_MESSAGES_ALONE = (
    *("avoided", "csv_rows", "kept", "mark_cells", "marks", "mending", "names", "other_ladders"),
    *("problems", "spellings", "wrong_only", "yaml_text"),
)
"""The modules of specs whose every saying is a message, or part of one."""


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> tuple[Saying, ...]:
    """What is said of all of these, where less than usual is allowed, so that it is quick."""
    with pytest.MonkeyPatch.context() as less:
        for module, name in (("avoided", "MOST_AVOIDED"), ("own_contexts", "MOST")):
            less.setattr(f"specs.{module}.{name}", 20)
        for module in ("marks", "wrong_only"):
            less.setattr(f"specs.{module}.MOST_PUPILS", 20)
            less.setattr(f"specs.{module}.MOST_ROWS", 40)
        found = [
            *(problem for text in SPECS for problem in of_a_spec(text)),
            *(p for below in CONTEXTS for p in of_a_spec(f"{WELL}contexts: {below}\n")),
            *of_files(tmp_path_factory.mktemp("specs")),
            *(problem for sheet in SHEETS for problem in of_marks(sheet, versions=VERSIONS)),
            *(problem for sheet in LISTS for problem in of_marks(sheet, PARTS)),
        ]
    said = [text for problem in found for text in (problem.what, problem.instead)]
    for path in ((), ("zz",)):
        said += CannotChangeError(path).what, CannotChangeError(path).instead
    return (*said, Look(18, "mint", "Polish").said)


def of_a_spec(text: str | bytes) -> tuple[Problem, ...]:
    """What is said of a spec, which is wrong."""
    data = text if isinstance(text, bytes) else text.encode()
    with pytest.raises(SpecError) as error:
        read_spec(data, "zz.yaml", VOCABULARY)
    return error.value.problems


def of_files(folder: Path) -> Iterator[Problem]:
    """What is said of those of the files that are wrong."""
    for name, text in FILES.items():
        if text is ...:
            (folder / name).mkdir()
        elif text is not None:
            (folder / name).write_bytes(text if isinstance(text, bytes) else text.encode())
    for name in FILES:
        if not name.endswith(".yml") and name != "well.yaml":
            with pytest.raises(SpecError) as error:
                load_spec(folder / name, VOCABULARY)
            yield from error.value.problems


def of_marks(
    text: str, sheets: Sheets | None = None, versions: dict[str, dict[int, str]] | None = None
) -> tuple[MarksProblem, ...]:
    """What is said of a mark sheet, or of a list of wrong answers."""
    data, code = text.encode(), "K7HM-D4-T"
    try:
        if sheets is not None:
            return read_wrong_only(data, "zz.csv", ASKED, sheets, code).problems
        return read_marks(data, "zz.csv", ASKED, versions=versions, code=code).problems
    except MarksError as error:
        return error.problems


def left(text: str) -> list[str]:
    """What of a message is not to be said in another language."""
    return not_sayings([_AS_WRITTEN.sub(" ", NOBODYS.says(text))], OWN)


def patterns(text: object) -> Iterator[str]:
    """The patterns that a saying is made of."""
    if isinstance(text, Saying):
        yield from filter(None, (text.pattern, text.many))
        for value in text.values.values():
            yield from patterns(value)


def test_every_word_of_a_message_is_a_saying(told: tuple[Saying, ...]) -> None:
    assert [text for text in dict.fromkeys(told) if left(text)] == []


def test_a_word_that_is_no_saying_is_found() -> None:
    said = say("the ladder has no rung {name}", name="'beans'")
    assert not left(said)
    assert left(f"{said}")
    assert left(say("{this}", this=f"{said}"))


@pytest.mark.parametrize("name", TRANSLATED)
def test_every_message_is_translated(name: str, told: tuple[Saying, ...]) -> None:
    says = language(name).says
    assert [text for text in dict.fromkeys(told) if NOBODYS.says(text) != text == says(text)] == []


def test_messages_of_every_kind_are_looked_at(told: tuple[Saying, ...]) -> None:
    modules = [(f"{name}.py", "python") for name in MAKE_MESSAGES_ALONE]
    found = extract_from_dir(ROOT / "specs", modules, keywords=KEYWORDS)
    said = (message for _, _, message, *_ in found)
    made = {p for message in said for p in ([message] if isinstance(message, str) else message)}
    assert made - {pattern for text in told for pattern in patterns(text)} <= {
        "something is out of place"  # what PyYAML should say nothing of
    }


@pytest.mark.parametrize("folder", ["specs/shapes", "generator/operations"])
def test_all_that_shapes_and_checks_of_words_say_is_looked_at(
    folder: str, told: tuple[Saying, ...]
) -> None:
    modules = [("*.py" if "shapes" in folder else "**/checks.py", "python")]
    found = extract_from_dir(ROOT / folder, modules, keywords=KEYWORDS)
    said = (message for _, _, message, *_ in found)
    made = {p for message in said for p in ([message] if isinstance(message, str) else message)}
    assert made - {pattern for text in told for pattern in patterns(text)} == set()
