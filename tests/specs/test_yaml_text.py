"""YAML text as a tree: what is let in, and what is refused at which line."""

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from specs.problems import Reading
from specs.yaml_text import DEEPEST, LARGEST, Mapping, Node, Scalar, Sequence, read_tree


def tree_of(text: str) -> Mapping:
    reading = Reading("stall.yaml")
    tree = read_tree(text.encode(), reading)
    assert tree is not None, reading.problems
    assert not reading.problems
    return tree


def problems_of(data: bytes) -> list[str]:
    reading = Reading("stall.yaml")
    read_tree(data, reading)
    return [str(problem) for problem in reading.problems]


def plain(node: Node) -> object:
    match node:
        case Scalar(text):
            return text
        case Sequence(items):
            return [plain(item) for item in items]
        case Mapping(entries):
            return {key.text: plain(value) for key, value in entries}


def test_words_keep_their_lines_and_spelling() -> None:
    tree = tree_of("price: 0.50\nmass:\n  - 1e3\n  - '2'\n")
    assert tree == Mapping(
        (
            (Scalar("price", 1), Scalar("0.50", 1)),
            (Scalar("mass", 2), Sequence((Scalar("1e3", 3), Scalar("2", 4, quoted=True)), 3)),
        ),
        1,
    )


def test_a_byte_order_mark_and_other_line_ends_are_no_matter() -> None:
    expected = {"a": "1", "b": "2"}
    assert plain(tree_of("\ufeffa: 1\nb: 2\n")) == expected
    assert plain(tree_of("a: 1\r\nb: 2\r\n")) == expected


def test_the_deepest_nesting() -> None:
    inner = DEEPEST - 1
    assert tree_of("a: " + "[" * inner + "]" * inner)
    assert "12 deep" in problems_of(b"a: " + b"[" * DEEPEST + b"]" * DEEPEST)[0]


@pytest.mark.parametrize(
    ("data", "expected"),
    [
        (b"", ["1: the file is empty; start with 'title:' and 'ladder:'"]),
        (b"# only a comment\n", ["1: the file is empty; start with 'title:' and 'ladder:'"]),
        (b"- beans\n", ["1: a spec is made of words with a colon;"]),
        (b"beans\n", ["1: a spec is made of words with a colon;"]),
        (b"a: 1\nb: 2\na: 3\n", ["3: 'a' is already on line 1; keep one of them"]),
        (b"a: {b: 1, b: 2}\nc: {d: 1,\n d: 2}\n", ["1: 'b' is already", "3: 'd' is already"]),
        (b"a:\n\tb: 1\n\tc: 1\n", ["2: the line begins with a tab; indent", "3: the line begins"]),
        (b"a: 1\nb:\t2\n", ["2: a tab stands between words; write spaces"]),
        (b"a: &bed 1\nb: *bed\n", ["1: '&bed' marks a part", "2: '*bed' repeats another part"]),
        (
            b"a: !!python/object:os.system 1\n",
            ["1: the tag '!!python/object:os.system' has no use"],
        ),
        (b"a: 1\n---\nb: 2\n", ["2: a second document begins; keep one spec in a file"]),
        (b"a: 1\nb: \xff\n", ["2: the file is not UTF-8 text; save it as UTF-8"]),
        (b"a: 1\nb: \x07\n", ["2: the file holds the control character U+0007; take it out"]),
        ("a: 1\n".encode("utf-16-le"), ["1: the file is not UTF-8 text; save it as UTF-8"]),
        ("a:\n\u00a0 b: 1\n".encode(), ["2: the line begins with a space that YAML does not"]),
        (b"title Beans\nladder:\n", ["1: 'title Beans' has no colon; write 'title: Beans'"]),
        (b"a:\n  first\n    b: 1\n", ["2: 'first' has no colon; write 'first:'"]),
        (b"a:\n  b:\n    operation add\n    c: 2\n", ["3: 'operation add' has no colon; write"]),
        (b"a: 1\n" + b"#" * LARGEST, ["1: the file is larger than 256 KiB; split it"]),
        (b"[" * 200_000, ["1: lists and mappings stand more than 12 deep;"]),
        (b"{a: " * 60_000, ["1: lists and mappings stand more than 12 deep;"]),
        (b"a: 1\nb: [1, 2\nc: 3\n", ["2: a comma or the closing ']' is missing"]),
        (b"a: 1\nb: 'beans\nc: 3\n", ["2: a quotation mark is opened but not closed; close it"]),
        (b"a: beans: peas\n", ["1: a colon stands where none can; put text that holds a colon"]),
        (b"a:\n  b: 1\n c: 2\n", ["3: this line does not line up with those above;"]),
        (b"a: 1\nbeans\n", ["2: a word has no colon after it;"]),
        (b"a: @beans\n", ["1: '@' cannot begin a word; put the text in quotes"]),
        (b"a: *\n", ["1: a word cannot begin with '*', '&' or '!'; put the text in quotes"]),
        (b'a: "\\q"\n', ["1: a '\\' in double quotes begins a code that YAML does not know;"]),
        (b'a: "\\UFFFFFFFF"\n', ["1: the file is not YAML;"]),
        (b"%YAML " + b"9" * 5000 + b".1\n---\na: 1\n", ["1: the file is not YAML;"]),
        (b"? [a]\n: b\n", ["1: a list or mapping stands before a colon; write a word"]),
    ],
)
def test_refused(data: bytes, expected: list[str]) -> None:
    found = problems_of(data)
    assert len(found) == len(expected), found
    for problem, start in zip(found, expected, strict=True):
        assert problem.startswith(f"stall.yaml:{start}")


@given(
    st.binary(max_size=200) | st.text("ab01:-[]{},&*!|>'\"%@#\\ \t\n?", max_size=60).map(str.encode)
)
def test_any_bytes_give_a_tree_or_a_problem(data: bytes) -> None:
    reading = Reading("stall.yaml")
    tree = read_tree(data, reading)
    assert (tree is None) <= bool(reading.problems)
    assert all(
        1 <= problem.line <= data.count(b"\n") + data.count(b"\r") + 2
        for problem in reading.problems
    )


WORDS = st.text("abcxyz", min_size=1, max_size=6)
TREES = st.recursive(
    WORDS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(WORDS, inner, max_size=3),
    max_leaves=8,
)


@given(st.dictionaries(WORDS, TREES, min_size=1, max_size=4), st.booleans())
def test_agrees_with_the_librarys_own_loader(value: dict[str, object], flow: bool) -> None:
    """Against PyYAML's BaseLoader, which also leaves every scalar as text."""
    text = yaml.safe_dump(value, default_flow_style=flow)
    assert plain(tree_of(text)) == yaml.load(text, Loader=yaml.BaseLoader) == value
