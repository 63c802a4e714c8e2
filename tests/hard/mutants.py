"""Changes the written methods and the counting a little and asks whether any test notices.

``python -m tests.hard.mutants --sample 60 generator/methods/addition.py …`` works on a copy of
the repository; it prints each survivor with its line. Mutants: another comparison, another
sign, a constant one more, a condition turned round, a branch of ``and`` and ``or`` exchanged.
"""

import argparse
import ast
import copy
import os
import random
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[2]

COMPARED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.In: ast.NotIn,
    ast.NotIn: ast.In,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
}
REPLACED: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.FloorDiv,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.FloorDiv,
    ast.LShift: ast.RShift,
    ast.RShift: ast.LShift,
    ast.BitOr: ast.BitAnd,
    ast.BitAnd: ast.BitOr,
}

TESTS = {
    "generator/methods": (
        "tests/hard/test_survivors.py",
        "tests/generator/test_methods.py",
        "tests/generator/test_replay.py",
    ),
    "generator/counting": ("tests/generator/test_counting.py", "tests/generator/test_conflicts.py"),
}
"""The fast tests that are to notice. More can be named with ``--tests``."""


@dataclass(frozen=True)
class Mutant:
    """A change of one node: ``at`` counts the nodes that can be changed in a file."""

    path: Path
    at: int
    line: int
    before: str
    after: str

    def __str__(self) -> str:
        return f"{self.path}:{self.line}: `{self.before}` became `{self.after}`"


def changed(node: ast.AST) -> Iterator[ast.AST]:
    """The node with one small thing changed, in each way that there is."""
    match node:
        case ast.Compare(ops=[op]) if type(op) in COMPARED:
            other = copy.deepcopy(node)
            other.ops = [COMPARED[type(op)]()]
            yield other
        case ast.BinOp(op=op) if type(op) in REPLACED and not is_text(node):
            other = copy.deepcopy(node)
            other.op = REPLACED[type(op)]()
            yield other
        case ast.Constant(value=bool()):
            yield ast.copy_location(ast.Constant(not node.value), node)
        case ast.Constant(value=int()):
            yield ast.copy_location(ast.Constant(int(node.value) + 1), node)
        case ast.BoolOp(op=op):
            turned = copy.deepcopy(node)
            turned.op = ast.Or() if isinstance(op, ast.And) else ast.And()
            yield turned
        case ast.UnaryOp(op=ast.Not() | ast.USub()):
            yield node.operand
        case ast.IfExp():
            yield ast.copy_location(ast.IfExp(node.test, node.orelse, node.body), node)


def is_text(node: ast.BinOp) -> bool:
    return any(isinstance(side, ast.JoinedStr) for side in (node.left, node.right))


class Changer(ast.NodeTransformer):
    """Finds the nodes that can be changed, and changes the one that is asked for."""

    def __init__(self, wanted: int | None = None) -> None:
        self.wanted = wanted
        self.found: list[tuple[int, str, str]] = []

    def visit_AnnAssign(self, node: ast.AnnAssign) -> ast.AST:
        if node.value is not None:
            node.value = self.visit(node.value)
        return node

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST:
        node.body = [self.visit(part) for part in node.body]
        node.args.defaults = [self.visit(part) for part in node.args.defaults]
        return node

    def visit_Assert(self, node: ast.Assert) -> ast.AST:
        return node  # says what holds already; says it to the type checker

    def visit(self, node: ast.AST) -> ast.AST:
        node = super().visit(node)
        for other in changed(node):
            self.found.append((getattr(node, "lineno", 0), ast.unparse(node), ast.unparse(other)))
            if self.wanted == len(self.found) - 1:
                return other
        return node


def mutants_of(path: Path) -> list[Mutant]:
    """Every mutant of a file; ``path`` is from the root of the repository."""
    changer = Changer()
    changer.visit(ast.parse((ROOT / path).read_text(encoding="utf-8")))
    return [Mutant(path, at, *found) for at, found in enumerate(changer.found)]


def mutated(mutant: Mutant) -> str:
    """The file's text with the mutant's change in it."""
    text = (ROOT / mutant.path).read_text(encoding="utf-8")
    tree = Changer(mutant.at).visit(ast.parse(text))
    return ast.unparse(ast.fix_missing_locations(tree))


def notices(copy_of_all: Path, tests: tuple[str, ...], seconds: float) -> bool:
    """Whether some test fails, or does not end, with what stands in the copy."""
    command = [sys.executable, "-m", "pytest", "-q", "-x", "-p", "no:cacheprovider", *tests]
    try:
        done = subprocess.run(
            command,
            cwd=copy_of_all,
            capture_output=True,
            timeout=seconds,
            env={**os.environ, "PYTHONPATH": str(copy_of_all), "PYTHONDONTWRITEBYTECODE": "1"},
        )
    except subprocess.TimeoutExpired:
        return True
    return done.returncode != 0


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("paths", nargs="*", type=Path)
    parser.add_argument("--sample", type=int, help="so many mutants, chosen by --seed")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--seconds", type=float, default=120, help="for the tests of one mutant")
    parser.add_argument("--tests", nargs="*", default=())
    chosen = parser.parse_args()
    paths = chosen.paths or [
        path.relative_to(ROOT) for folder in TESTS for path in sorted((ROOT / folder).glob("*.py"))
    ]
    mutants = [mutant for path in paths for mutant in mutants_of(path)]
    tried = mutants
    if chosen.sample is not None and chosen.sample < len(mutants):
        tried = random.Random(chosen.seed).sample(mutants, chosen.sample)
    survivors = 0
    with tempfile.TemporaryDirectory() as parent:
        work = Path(parent, "copy")
        ignored = shutil.ignore_patterns(".*", "out", "__pycache__")
        shutil.copytree(ROOT, work, ignore=ignored)
        for mutant in tried:
            tests = tuple(chosen.tests) or TESTS[mutant.path.parent.as_posix()]
            (work / mutant.path).write_text(mutated(mutant), encoding="utf-8")
            if not notices(work, tests, chosen.seconds):
                survivors += 1
                print(f"survived: {mutant}", flush=True)
            shutil.copyfile(ROOT / mutant.path, work / mutant.path)
    print(f"{len(tried)} of {len(mutants)} mutants tried, {survivors} survived")


if __name__ == "__main__":
    main()
