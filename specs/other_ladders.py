"""The ladders of earlier specs that a spec takes rungs from: files beside it, read with their own
file and line in every message.
"""

from collections.abc import Callable, Collection
from dataclasses import replace
from typing import Final

from specs.earlier import EARLIER, MOST_FILES, OtherLadders, files_named, name_here
from specs.ladder import Ladder
from specs.languages.saying import joined, say
from specs.problems import Problem, Reading, cannot_be_opened, quoted
from specs.spec import RungSpec
from specs.spellings import NOTHING_ELSE, respelt
from specs.words import Vocabulary
from specs.yaml_text import Mapping, read_tree

Beside = Callable[[str], tuple[str, bytes] | None]
"""What a file beside the spec holds, and what messages call it; None where there is none."""

_LADDER: Final = "ladder"


def other_ladders(
    tree: Mapping,
    own: Collection[str],
    beside: Beside | None,
    vocabulary: Vocabulary,
    reading: Reading,
) -> OtherLadders:
    """The ladders of the files that stand below ``earlier`` in a spec, those that can be read.

    ``own`` are the names of the spec's own rungs, which none of theirs may have. ``beside`` is None
    where no other file can be read. A file's own ``earlier`` is not followed.
    """
    named: dict[str, int] = {}
    for file in files_named(tree):
        named.setdefault(file.text, file.line)
    found: dict[str, dict[str, RungSpec]] = {}
    taken = dict.fromkeys(own, say("the spec's own ladder"))
    for at, (name, line) in enumerate(named.items()):
        if at == MOST_FILES:
            what = say("{word} names {count} files", word=quoted(EARLIER), count=len(named))
            reading.problem(line, what, say("keep to {most}", most=MOST_FILES))
            break
        if beside is None:
            what = say(
                "{word} names {file}, which is no file that can be read here",
                word=quoted(EARLIER),
                file=quoted(name),
            )
            instead = say(
                "build from the spec's folder with that file beside it, or copy its rungs"
            )
            reading.problem(line, what, instead)
            continue
        given = beside(name)
        if given is None:
            reading.problem(line, *cannot_be_opened(EARLIER, name))
            continue
        found[name] = {}
        for rung in _ladder_of(*given, vocabulary, reading):
            here = name_here(name, rung.name)
            if here in taken:
                what = say(
                    "the rung {rung} of {file} would be called {name}, as one of {ladder}",
                    rung=quoted(rung.name),
                    file=quoted(name),
                    name=quoted(here),
                    ladder=taken[here],
                )
                reading.problem(line, what, say("give that file another name"))
            taken[here] = joined((quoted(name),))
            found[name][rung.name] = replace(rung, name=here, key="")
    return found


def _ladder_of(
    source: str, data: bytes, vocabulary: Vocabulary, reading: Reading
) -> tuple[RungSpec, ...]:
    """The rungs of an earlier spec; () where something is wrong with them, which is reported."""
    inside = Reading(source)
    tree = read_tree(data, inside)
    rungs: tuple[RungSpec | None, ...] = ()
    if tree is not None:
        words = respelt(tree, (_LADDER,), NOTHING_ELSE, inside)
        written = next((node for key, node in words.entries if key.text == _LADDER), None)
        if written is None:
            what = say("this is no spec to take rungs from: it has no 'ladder'")
            inside.problems.append(Problem(source, 1, what, say("name a spec")))
        else:
            rungs = tuple(Ladder(vocabulary).read_each(written, inside).values())
    reading.problems.extend(inside.problems)
    return () if inside.problems else tuple(rung for rung in rungs if rung is not None)
