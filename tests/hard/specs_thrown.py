"""Specs to throw at the reader: near-right ones, damaged ones, and ones meant to harm.

The near-right ones are written from the vocabulary itself, by the schema that each word
publishes, so a new condition is tried as soon as there is one.
"""

import string
from typing import Any

from hypothesis import strategies as st

from generator.operations.mistakes import EVERY_MISTAKE, MISTAKES
from generator.vocabulary import VOCABULARY
from specs import shipped, shipped_names
from specs.pages import PAGES
from specs.yaml_text import LARGEST

Draw = Any

SHIPPED = tuple(shipped(name).read_bytes() for name in shipped_names())

TITLES = (
    "Beans",
    '"(beans) \\\\ ) Tj ET"',
    "'Bohnen – große × kleine'",
    '"a\\nb"',
    '"\\u202Ereversed"',
    "'שעועית'",
    "豆",
    "2024",
    "null",
    "x" * 81,
    "$(touch leaked) `touch leaked`",
    "../../leaked",
    '"\\0"',
    "🫘",
)

AVOIDED = (
    *("3.4 + 0.27", "0.5 * 4", "8.4/2", "9 − 2.5", '"compare 0.5, 0.50"', '"order 0.4, 0.35, 0.3"'),
    *("round 3.47 to 1", "round 347 to -2", "round 3 to 99", '"+"', "3 +", "1 + 2 - 3", "7", "[]"),
    *(f"{'9' * 18} + {'9' * 18}", f"{'9' * 90} + 1", "3.4\t+\t0.27", '"3.4\\n+ 1"', "~", "x"),
)

WRONG = (
    "",
    "~",
    "none",
    "-1",
    "0",
    "7",
    "99",
    "2.5",
    "1e3",
    "1e999999999",
    "0x10",
    "0o17",
    "1_000",
    "٣",
    "１",
    "inf",
    ".nan",
    "9" * 5000,
    "0." + "3" * 5000,
    "-" * 300,
    "[]",
    "{}",
    "[1, 2, 3, 4, 5, 6, 7, 8]",
    "[[1]]",
    "[3, 1]",
    "{a: {b: {c: 1}}}",
    "{count: }",
    '"2"',
    "'none'",
    "true",
    "yes",
    "2024-01-01",
    "!!python/object/apply:os.system [touch leaked]",
    "!!binary aGk=",
    "&a 1",
    "*a",
    "| \n      block",
    "a" * 5000,
    "é",
    "\u202e",
    "\x85",
    "\u2028",
    "<<",
    "? x",
    "@x",
    "%x",
)


@st.composite
def value(draw: Draw, fragment: dict[str, Any]) -> str:
    """A value in flow YAML that a fragment of schema takes."""
    if "anyOf" in fragment:
        return draw(value(draw(st.sampled_from(fragment["anyOf"]))))
    if "enum" in fragment:
        chosen = draw(st.sampled_from(fragment["enum"]))
        return {True: "true", False: "false"}.get(chosen, str(chosen))
    kind = fragment.get("type")
    if kind == "boolean":
        return draw(st.sampled_from(("true", "false")))
    if kind == "integer":
        return str(draw(st.integers(fragment["minimum"], fragment["maximum"])))
    if kind == "number":
        places = draw(st.integers(0, 3))
        low, high = fragment.get("minimum", 0), fragment.get("maximum", 1000)
        units = draw(st.integers(int(low * 10**places), int(high * 10**places)))
        return f"{units / 10**places:.{places}f}"
    if kind == "array":
        size = draw(st.integers(fragment.get("minItems", 0), fragment.get("maxItems", 4)))
        items = [draw(value(fragment["items"])) for _ in range(size)]
        if fragment.get("uniqueItems"):
            items = list(dict.fromkeys(items))
        if size == 2 and fragment["items"].get("type") in ("integer", "number"):
            items.sort(key=float)
        return f"[{', '.join(items)}]"
    if kind == "object":
        properties = fragment.get("properties", {})
        if not properties:
            names = ["core"]
            properties = {"core": fragment["additionalProperties"]}
        else:
            names = draw(
                st.lists(st.sampled_from(sorted(properties)), min_size=1, max_size=3, unique=True)
            )
        return f"{{{', '.join(f'{name}: {draw(value(properties[name]))}' for name in names)}}}"
    return draw(st.sampled_from(("beans", "peas", "7")))


@st.composite
def rung(draw: Draw) -> dict[str, str]:
    operation = draw(st.sampled_from(VOCABULARY.operations))
    words = VOCABULARY.of(operation)
    chosen = draw(st.lists(st.sampled_from(words), max_size=5, unique_by=lambda word: word.name))
    return {
        "operation": operation,
        **{word.name: draw(value(word.shape.schema())) for word in chosen},
    }


@st.composite
def section(draw: Draw, rungs: list[str], longest: int = 5) -> str:
    some = draw(st.lists(st.sampled_from(rungs), min_size=1, max_size=3, unique=True))
    counts = f"{{{', '.join(f'{name}: {draw(st.integers(1, longest))}' for name in some)}}}"
    if draw(st.integers(0, 3)):
        return counts
    frames = draw(st.sampled_from(("full", "part", "none", "{from: full, to: none}")))
    words = f"minutes: {draw(st.integers(1, 60))}, frames: {frames}, questions: {counts}"
    if draw(st.booleans()):
        names = [mistake.name for mistake in MISTAKES]
        apart = draw(st.lists(st.sampled_from(names), min_size=1, max_size=4))
        words += f", tells_apart: [{', '.join(apart)}]"
    if draw(st.booleans()):
        names = ["every habit", *(mistake.name for mistake in EVERY_MISTAKE)]
        out = draw(st.lists(st.sampled_from(names), min_size=1, max_size=3))
        words += f", finds_out: [{', '.join(out)}]"
    return f"{{{words}}}"


def misspelt(draw: Draw, word: str) -> str:
    at = draw(st.integers(0, max(len(word) - 1, 0)))
    return draw(
        st.sampled_from(
            (word[:at] + word[at + 1 :], word[:at] + "x" + word[at:], word.upper(), f"{word} ")
        )
    )


@st.composite
def near_right(draw: Draw) -> bytes:
    """A spec by the grammar, with none, one or two things wrong in it."""
    names = draw(
        st.lists(
            st.sampled_from(("beans", "peas", "leeks", "chard", "a1", "con", "minutes")),
            min_size=1,
            max_size=3,
            unique=True,
        )
    )
    lines: list[tuple[int, str, str]] = [
        (0, "title", draw(st.sampled_from(TITLES)) if draw(st.integers(0, 4)) == 0 else "Beans"),
        (0, "ladder", ""),
    ]
    for name in names:
        lines.append((1, name, ""))
        lines += [(2, word, text) for word, text in draw(rung()).items()]
    if draw(st.booleans()):
        lines.append((0, "starter", draw(section(names))))
    if draw(st.booleans()):
        lines.append((0, "examples", f"[{', '.join(names)}]"))
    lines.append((0, "tiers", ""))
    for tier in draw(st.sampled_from((("core",), ("core", "more"), ("nul",), ("../leaked",)))):
        lines.append((1, tier, draw(section(names))))
    if not draw(st.integers(0, 3)):
        lines.append((0, "pages", draw(value(PAGES.schema()))))
    if not draw(st.integers(0, 3)):
        lines.append((0, "matching", draw(st.sampled_from(("signature", "rung", "pair")))))
    if not draw(st.integers(0, 7)):
        avoided = draw(st.lists(st.sampled_from(AVOIDED), max_size=6))
        lines.append((0, "avoid", f"[{', '.join(avoided)}]"))
    for _ in range(draw(st.sampled_from((0, 0, 1, 1, 2)))):
        at = draw(st.integers(0, len(lines) - 1))
        depth, word, text = lines[at]
        match draw(st.integers(0, 6)):
            case 0:
                lines[at] = (depth, word, draw(st.sampled_from(WRONG)))
            case 1:
                lines[at] = (depth, misspelt(draw, word), text)
            case 2:
                lines.insert(at, lines[at])
            case 3:
                del lines[at]
            case 4:
                lines[at] = (max(depth + draw(st.sampled_from((-1, 1))), 0), word, text)
            case 5:
                other = draw(st.integers(0, len(lines) - 1))
                lines[at] = (depth, word, lines[other][2])
            case _:
                lines[at] = (depth, word, misspelt(draw, text) if text else "")
        if not lines:
            break
    ending = draw(st.sampled_from(("\n", "\n", "\n", "\r\n", "\r")))
    return ending.join(f"{'  ' * d}{w}: {t}" for d, w, t in (*lines, (0, "#", ""))).encode()


@st.composite
def damaged(draw: Draw) -> bytes:
    """A shipped spec with bytes of it changed, moved, doubled or lost."""
    data = bytearray(draw(st.sampled_from(SHIPPED)))
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, max(len(data) - 1, 0)))
        length = draw(st.sampled_from((1, 1, 2, 8, 60, 400)))
        match draw(st.integers(0, 5)):
            case 0:
                data[at : at + 1] = bytes([draw(st.integers(0, 255))])
            case 1:
                del data[at : at + length]
            case 2:
                data[at:at] = data[at : at + length]
            case 3:
                data[at:at] = draw(st.sampled_from(BITS))
            case 4:
                other = draw(st.integers(0, max(len(data) - 1, 0)))
                data[at : at + length] = data[other : other + length]
            case _:
                data[at : at + 1] = str(draw(st.integers(-3, 99))).encode()
    return bytes(data)


BITS = (
    b"\t",
    b"\0",
    b"\xff\xfe",
    b"\xef\xbb\xbf",
    b"\xc3\x28",
    b"\r",
    b"\xc2\x85",
    b"\xe2\x80\xa8",
    b": ",
    b"- ",
    b"? ",
    b"[",
    b"]",
    b"{",
    b"}",
    b'"',
    b"'",
    b"#",
    b"&a ",
    b"*a",
    b"!x ",
    b"!!python/name:os.system ",
    b"%YAML 9.9\n",
    b"---\n",
    b"...\n",
    b"<<: ",
    b"|\n",
    b">-9\n",
    b'"\\x',
    b'"\\U0011ffff"',
    b"@",
    b"`",
)


@st.composite
def hostile(draw: Draw) -> bytes:
    """Text that is meant to do harm: to grow, to nest, to name Python objects, to be endless."""
    many = draw(st.sampled_from((2, 30, 1_000, 20_000, 120_000)))
    letter = draw(st.sampled_from(string.ascii_lowercase))
    made = {
        "aliases": lambda: (
            "a: &a [x, x]\n" + "".join(f"b{i}: &b{i} [*a, *a]\n" for i in range(many // 9))
        ),
        "laughs": lambda: "".join(
            f"l{i}: &l{i} [{', '.join([f'*l{i - 1}' if i else 'x'] * 9)}]\n" for i in range(12)
        ),
        "self": lambda: "a: &a [*a]\n",
        "anchor": lambda: f"&{letter * many} a: *{letter * many}\n",
        "brackets": lambda: "[" * many,
        "braces": lambda: "{a: " * (many // 2),
        "closed": lambda: "[" * min(many, 2000) + "]" * min(many, 2000),
        "indent": lambda: "".join(f"{' ' * i}a:\n" for i in range(min(many, 500))),
        "dashes": lambda: "- " * many,
        "questions": lambda: "? " * many,
        "number": lambda: f"title: {'9' * many}\nladder: {'9' * many}\n",
        "fraction": lambda: (
            f"ladder: {{a: {{operation: add, answer: {{below: 0.{'1' * many}}}}}}}\n"
        ),
        "exponent": lambda: "ladder: {a: {operation: add, places: 1e999999999}}\n",
        "tag": lambda: "!!python/object/apply:os.system ['touch leaked']\n",
        "directive": lambda: f"%TAG ! {letter * many}\n---\na\n",
        "version": lambda: f"%YAML 1.{'9' * many}\n---\na: 1\n",
        "escape": lambda: 'title: "\\U7fffffff"\n',
        "name": lambda: f"{letter * many}: 1\n",
        "names": lambda: "".join(f"{letter}{i}: 1\n" for i in range(many // 8)),
        "same": lambda: f"{letter}: 1\n" * (many // 4),
        "rungs": lambda: (
            "title: x\nladder:\n"
            + "".join(f"  r{i}: {{operation: add}}\n" for i in range(min(many, 8000)))
            + "tiers: {core: {r1: 1}}\n"
        ),
        "wrong rungs": lambda: (
            "title: x\nladder:\n"
            + "".join(f"  r{i}: {{operation: ad, plac: {i}}}\n" for i in range(min(many, 6000)))
            + "tiers: {core: {r1: 1}}\n"
        ),
        "wrong shares": lambda: (
            "title: x\nladder: {a: {operation: add}}\ntiers:\n  core:\n"
            + "".join(f"    r{i}: 1\n" for i in range(min(many, 15000)))
        ),
        "list": lambda: f"title: x\nladder: {{a: {{operation: add, places: [{'1, ' * many}1]}}}}\n",
        "examples": lambda: (
            f"title: x\nladder: {{a: {{operation: add}}}}\nexamples: [{'a, ' * many}a]\n"
        ),
        "sections": lambda: (
            "title: x\nladder: {a: {operation: add}}\ntiers:\n"
            + "".join(f"  t{i}: {{a: 40}}\n" for i in range(min(many, 8000)))
        ),
        "tabs": lambda: "\t" * many,
        "tabbed": lambda: "a:\n" + "\tb: 1\n" * (many // 6),
        "breaks": lambda: "\n" * many,
        "returns": lambda: "\r" * many,
        "separators": lambda: "\u2028" * (many // 3),
        "comments": lambda: "# x\n" * (many // 4),
        "spaces": lambda: " " * many + "x",
        "text": lambda: f"title: |\n{'  x' * many}\n",
        "quotes": lambda: '"' + "x " * many,
        "folded": lambda: 'title: "' + "x\n\n" * (many // 3) + '"',
        "backslashes": lambda: '"' + "\\" * many,
        "documents": lambda: "---\n" * (many // 4),
        "merge": lambda: "<<: {a: 1}\ntitle: x\n",
        "set": lambda: "!!set {a, b}\n",
        "complex keys": lambda: "? [a, b]\n: 1\n" * (many // 16),
        "key": lambda: f"? {letter * many}\n: 1\n",
        "colons": lambda: ":" * many,
        "colon words": lambda: "a: " * many,
        "wide": lambda: wide(draw),
    }
    text = made[draw(st.sampled_from(sorted(made)))]()
    encoded = text.encode(draw(st.sampled_from(("utf-8",) * 5 + ("utf-16", "utf-32", "utf-16-le"))))
    if not draw(st.integers(0, 9)):
        encoded = encoded * (LARGEST // max(len(encoded), 1) + 2)
    return encoded


def wide(draw: Draw) -> str:
    """A ladder whose rungs mix as many lengths and conditions as the words allow."""
    lines = ["title: x", "ladder:"]
    for at in range(draw(st.sampled_from((1, 1, 1, 3, 12)))):
        operation = draw(st.sampled_from(VOCABULARY.operations))
        words = {}
        for word in VOCABULARY.of(operation):
            if draw(st.integers(0, 2)):
                words[word.name] = widest(draw, word.shape.schema())
        if operation == "add":
            words["addends"] = str(draw(st.integers(3, 6)))
            words["places"] = f"{{{draw(st.sampled_from(('between', 'ragged')))}: [0, 4]}}"
            words["whole"] = f"{{between: [0, {draw(st.integers(1, 5))}]}}"
        lines.append(f"  r{at}:")
        lines.append(f"    operation: {operation}")
        lines += [f"    {name}: {text}" for name, text in words.items()]
    lines += ["tiers:", "  core: {r0: 3}"]
    return "\n".join(lines)


def widest(draw: Draw, fragment: dict[str, Any]) -> str:
    """A value that asks for as much as it can: every field, the longest range."""
    choices = fragment.get("anyOf", [fragment])
    objects = [choice for choice in choices if choice.get("type") == "object"]
    chosen = objects[0] if objects else choices[-1]
    if chosen.get("type") == "object" and chosen.get("properties"):
        fields = {
            name: widest(draw, inner)
            for name, inner in chosen["properties"].items()
            if draw(st.integers(0, 3))
        } or {next(iter(chosen["properties"])): "1"}
        return f"{{{', '.join(f'{name}: {text}' for name, text in fields.items())}}}"
    if chosen.get("type") == "array" and chosen["items"].get("type") in ("integer", "number"):
        low, high = chosen["items"]["minimum"], chosen["items"]["maximum"]
        return f"[{int(low)}, {int(high)}]"
    return draw(value(chosen))


SPECS = st.one_of(near_right(), near_right(), near_right(), damaged(), damaged(), hostile())
