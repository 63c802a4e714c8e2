"""A spec from its file, with what it takes from the files that lie beside it."""

import os
from dataclasses import replace
from pathlib import Path

from specs.languages.saying import Saying, say
from specs.own_contexts import joined
from specs.problems import Problem, SpecError, did_you_mean, near_word
from specs.reading import read_spec
from specs.shipped import shipped_names
from specs.spec import Spec
from specs.unreadable import reason
from specs.words import Vocabulary
from specs.writing import spec_text
from specs.yaml_text import LARGEST


def load_spec(path: str | os.PathLike[str], vocabulary: Vocabulary) -> Spec:
    """The spec in a file. Raises SpecError, with every problem, when it cannot be used.

    Where it takes rungs from earlier specs, its text is that of the whole written out, so that
    what is printed can be built again without those files.
    """
    source = os.fspath(path)
    try:
        with open(source, "rb") as file:
            data = file.read(LARGEST + 1)
    except FileNotFoundError:
        near = _near_file(Path(source))
        instead = did_you_mean(near) if near else say("check its name and folder")
        raise _unreadable(source, say("there is no such file"), instead) from None
    except (OSError, ValueError) as error:
        if os.path.isdir(source):
            what, instead = say("this is a folder"), say("name a file in it")
            raise _unreadable(source, what, instead) from None
        why = reason(error, in_lower_case=True)
        what = say("the file cannot be opened ({reason})", reason=why)
        raise _unreadable(source, what, say("check its name and who may read it")) from None
    whole = joined(data, Path(source))
    if isinstance(whole, Problem):
        raise SpecError([whole])

    others: list[str] = []

    def beside(name: str) -> tuple[str, bytes] | None:
        others.append(name)
        return _beside(Path(source).parent / name)

    try:
        spec = read_spec(whole.data, source, vocabulary, beside)
    except SpecError as error:
        placed = [whole.placed(one) if one.file == source else one for one in error.problems]
        raise SpecError(placed, error.so_far) from None
    return replace(spec, text=spec_text(spec)) if others else spec


def _beside(path: Path) -> tuple[str, bytes] | None:
    """A file's name and what is in it, up to what a spec may have."""
    try:
        if not path.is_file():
            return None
        with path.open("rb") as file:
            return str(path), file.read(LARGEST + 1)
    except (OSError, ValueError):
        return None


def _near_file(path: Path) -> str | None:
    """A spec in the folder named, or one that ships, whose name is like that of no file."""
    try:
        beside = sorted(p for p in path.parent.iterdir() if p.suffix in (".yaml", ".yml"))
    except (OSError, ValueError):
        return None
    near = near_word(path.stem, [*shipped_names(), *(p.stem for p in beside)])
    return next((str(p) for p in beside if p.stem == near), near)


def _unreadable(source: str, what: Saying, instead: Saying) -> SpecError:
    return SpecError([Problem(source, 1, what, instead)])
