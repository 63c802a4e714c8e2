"""Changes the written methods and the counting a little and asks whether any test notices.

``python -m tests.hard.mutants`` goes through every mutant of ``generator/operations`` and
``generator/numbered``; files can be named, ``--sample 60 --seed 4`` takes some of them. Mutants:
another comparison, another sign, a constant one more, a condition turned round, a branch of
``and`` and ``or`` exchanged.

First it is written down which tests enter which function (``out/mutants/tests.json``), with what
earlier tests had worked out forgotten. A mutant meets the tests that enter its function, the
quickest first, and is noticed at the first that fails, or takes ten times its time. Each has a
process of its own, forked from one that has collected the tests: its function is changed in
memory. One that no test notices so, or that is in no function, is tried anew with the whole
changed module imported. What became of each is kept in ``out/mutants/found.jsonl``: a run that was
cut short goes on where it stopped, ``--again`` tries the survivors once more, and ``--report``
prints what is known.
``survivors.md`` explains those that are left.
"""

import argparse
import ast
import copy
import gc
import hashlib
import importlib.abc
import importlib.machinery
import importlib.util
import inspect
import json
import os
import random
import resource
import signal
import sys
import time
from collections import Counter, defaultdict
from collections.abc import Callable, Iterator
from dataclasses import asdict, dataclass
from functools import _lru_cache_wrapper
from pathlib import Path
from types import CodeType, FrameType
from typing import Any

import hypothesis
import numpy  # noqa: F401  # libraries that tests import: here, so that they are there already
import pytest
import reportlab.pdfgen.canvas  # noqa: F401
import scipy.stats  # noqa: F401
import typer.testing  # noqa: F401
import yaml  # noqa: F401

ROOT = Path(__file__).parents[2]
KEPT = ROOT / "out" / "mutants"
FOLDERS = ("generator/operations", "generator/numbered")
NOTICING = ("tests/generator", "tests/hard/test_survivors.py")
"""The tests that are to notice: those that need nothing but this process."""

FIRST_FILES = 3
"""A mutant meets the tests of so many files first; most never meet others."""

SLOWEST = 0.5
"""Tests that take more seconds than this are left out: what they alone notice is a survivor."""

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


@dataclass(frozen=True)
class Mutant:
    """A change of one node: ``at`` counts the nodes that can be changed in a file.

    ``function`` is the outermost function round it, with its class; empty where there is none.
    """

    path: str
    at: int
    line: int
    function: str
    before: str
    after: str
    digest: str

    def __str__(self) -> str:
        inside = f" in {self.function}" if self.function else ""
        return f"{self.path}:{self.line}{inside}: `{self.before}` became `{self.after}`"


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
        self.found: list[tuple[int, str, str, str]] = []
        self.names: list[str] = []
        self.in_function = False

    def visit_AnnAssign(self, node: ast.AnnAssign) -> ast.AST:
        if node.value is not None:
            node.value = self.visit(node.value)
        return node

    def visit_ClassDef(self, node: ast.ClassDef) -> ast.AST:
        if self.in_function:
            return self.generic_visit(node)
        self.names.append(node.name)
        node = self.generic_visit(node)  # type: ignore[assignment]
        self.names.pop()
        return node

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST:
        outermost = not self.in_function
        if outermost:
            self.names.append(node.name)
            self.in_function = True
        node.body = [self.visit(part) for part in node.body]
        node.args.defaults = [self.visit(part) for part in node.args.defaults]
        if outermost:
            self.names.pop()
            self.in_function = False
        return node

    def visit_Assert(self, node: ast.Assert) -> ast.AST:
        return node  # says what holds already; says it to the type checker

    def visit(self, node: ast.AST) -> ast.AST:
        node = super().visit(node)
        for other in changed(node):
            function = ".".join(self.names) if self.in_function else ""
            texts = ast.unparse(node), ast.unparse(other)
            self.found.append((getattr(node, "lineno", 0), function, *texts))
            if self.wanted == len(self.found) - 1:
                return other
        return node


def mutants_of(path: str) -> list[Mutant]:
    """Every mutant of a file; ``path`` is from the root of the repository."""
    text = (ROOT / path).read_text(encoding="utf-8")
    digest = hashlib.sha256(text.encode()).hexdigest()[:16]
    changer = Changer()
    changer.visit(ast.parse(text))
    return [Mutant(path, at, *found, digest) for at, found in enumerate(changer.found)]


def mutated(mutant: Mutant) -> CodeType:
    """The file's code with the mutant's change in it."""
    path = ROOT / mutant.path
    tree = Changer(mutant.at).visit(ast.parse(path.read_text(encoding="utf-8")))
    return compile(ast.fix_missing_locations(tree), str(path), "exec")


class InItsPlace(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Gives the changed module to whoever imports it."""

    def __init__(self, mutant: Mutant) -> None:
        self.name = mutant.path.removesuffix(".py").removesuffix("/__init__").replace("/", ".")
        self.path, self.code = ROOT / mutant.path, mutated(mutant)

    def find_spec(
        self, fullname: str, path: object, target: object = None
    ) -> importlib.machinery.ModuleSpec | None:
        if fullname != self.name:
            return None
        return importlib.util.spec_from_file_location(fullname, self.path, loader=self)

    def exec_module(self, module: Any) -> None:
        exec(self.code, module.__dict__)


Tests = dict[str, dict[str, tuple[float, list[str]]]]
"""By file and test: how long it takes and which functions it enters."""


class Failures:
    """A pytest plugin: remembers the first test that failed; ends one that takes too long."""

    def __init__(self, tests: Tests) -> None:
        self.first = ""
        self.usual = {test: took for inside in tests.values() for test, (took, _) in inside.items()}

    def pytest_runtest_logstart(self, nodeid: str) -> None:
        # In seconds of the processor: a busy machine makes no mutant noticed. Nothing catches
        # the signal, so it ends the process.
        signal.setitimer(signal.ITIMER_PROF, 3 + 10 * self.usual.get(nodeid, 0))

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            self.first = self.first or report.nodeid

    def pytest_collectreport(self, report: pytest.CollectReport) -> None:
        if report.failed:
            self.first = self.first or report.nodeid or "the reading of the tests"


class Chosen(Failures):
    """A pytest plugin: only these tests, in this order."""

    def __init__(self, chosen: list[str], tests: Tests) -> None:
        super().__init__(tests)
        self.order = {test: at for at, test in enumerate(chosen)}

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        kept = [item for item in items if item.nodeid in self.order]
        items[:] = sorted(kept, key=lambda item: self.order[item.nodeid])


class Ready(Failures):
    """A pytest plugin: collects the tests once; then ``work`` has them run in forked processes."""

    def __init__(self, tests: Tests, work: Callable[["Ready"], None]) -> None:
        super().__init__(tests)
        self.work = work
        self.items: dict[str, pytest.Item] = {}

    @pytest.hookimpl(tryfirst=True)
    def pytest_collection(self) -> None:
        # What fails is not made smaller: it is enough that it fails.
        phases = (hypothesis.Phase.explicit, hypothesis.Phase.generate)
        hypothesis.settings.register_profile(
            "noticing", derandomize=True, deadline=None, phases=phases, database=None
        )
        hypothesis.settings.load_profile("noticing")

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        self.items = {item.nodeid: item for item in session.items}
        self.work(self)
        return True

    def run(self, tests: list[str]) -> str:
        """The first of the tests that fails; empty when none does."""
        items = [self.items[test] for test in tests]
        for item, after in zip(items, [*items[1:], None], strict=False):
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=after)
            if self.first:
                return self.first
        return ""


def put_in_place(mutant: Mutant) -> bool:
    """Give the function that is in memory already the mutant's code; whether that could be done."""
    name = mutant.path.removesuffix(".py").removesuffix("/__init__").replace("/", ".")
    old: Any = sys.modules[name]
    for part in mutant.function.split("."):
        old = inspect.getattr_static(old, part)
    while not inspect.isfunction(old):
        inner = next(
            (
                getattr(old, attribute)
                for attribute in ("__wrapped__", "__func__", "fget", "func")
                if getattr(old, attribute, None) is not None
            ),
            None,
        )
        if inner is None:
            return False
        old = inner
    new = code_named(mutated(mutant), mutant.function)
    if new is None or new == old.__code__ or new.co_freevars != old.__code__.co_freevars:
        return False
    old.__code__ = new
    forget()
    return True


def forget() -> None:
    """Forget what is kept from earlier calls."""
    for kept in gc.get_objects():
        if type(kept) is _lru_cache_wrapper:
            kept.cache_clear()


def code_named(code: CodeType, name: str) -> CodeType | None:
    """The code of the function with that qualified name; None where there is none, or several."""
    found, inside = [], [code]
    while inside:
        for part in inside.pop().co_consts:
            if isinstance(part, CodeType):
                inside.append(part)
                found += [part] if part.co_qualname == name else []
    return found[0] if len(found) == 1 else None


class Watching:
    """A pytest plugin: which functions each test enters, and how long it takes."""

    def __init__(self) -> None:
        self.seen: dict[int, CodeType] = {}
        self.entered: dict[str, tuple[float, list[str]]] = {}
        self.outside: set[str] = set()
        self.kept: list[Any] = []

    def trace(self, frame: FrameType, event: str, argument: object) -> None:
        self.seen[id(frame.f_code)] = frame.f_code

    def functions(self) -> list[str]:
        found = set()
        seen, self.seen = self.seen, {}
        for code in seen.values():
            if code.co_filename.startswith(f"{ROOT}/generator/"):
                name = code.co_qualname.partition(".<locals>")[0]
                path = Path(code.co_filename).relative_to(ROOT).as_posix()
                found.add(f"{path}:{'' if name.startswith('<') else name}")
        return sorted(found)

    def pytest_collection_finish(self) -> None:
        self.outside |= set(self.functions())
        self.kept = [kept for kept in gc.get_objects() if type(kept) is _lru_cache_wrapper]

    @pytest.hookimpl(hookwrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        # What an earlier test had worked out would not be entered again.
        for kept in self.kept:
            kept.cache_clear()
        start = time.process_time()
        yield
        self.entered[item.nodeid] = (time.process_time() - start, self.functions())


def forked(work: Callable[[], Any], seconds: float, out: Path) -> int:
    """Do something in a process of its own, whose result is written to a file."""
    child = os.fork()
    if child:
        return child
    try:
        resource.setrlimit(resource.RLIMIT_CPU, (int(seconds) + 1, int(seconds) + 2))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        resource.setrlimit(resource.RLIMIT_AS, (4 << 30, 4 << 30))
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, 1)
        os.dup2(nowhere, 2)
        out.write_text(json.dumps(work()), encoding="utf-8")
    except BaseException as error:
        out.write_text(json.dumps({"error": repr(error)}), encoding="utf-8")
    finally:
        os._exit(0)


def run(files: list[str], *plugins: object) -> int:
    options = ["-q", "-x", "-p", "no:cacheprovider", "-p", "no:xdist", "--tb=no"]
    return int(pytest.main([*options, *files], plugins=list(plugins)))


def tests_of(file: str) -> dict[str, tuple[float, list[str]]]:
    """The tests of a file, watched. Raises when one of them fails without any change."""
    watching = Watching()
    sys.settrace(watching.trace)  # called once a call: it gives nothing that follows the lines
    code = run([file], watching)
    sys.settrace(None)
    if code:
        raise AssertionError(f"{file}: exit code {code} with nothing changed")
    return {
        test: (seconds, sorted({*functions, *watching.outside}))
        for test, (seconds, functions) in watching.entered.items()
    }


def known_tests(noticing: tuple[str, ...]) -> Tests:
    """The tests and what they enter; watched anew only where a file of tests has changed."""
    kept = KEPT / "tests.json"
    known = json.loads(kept.read_text(encoding="utf-8")) if kept.exists() else {}
    found = {}
    paths = [
        p
        for name in noticing
        for p in (
            [ROOT / name] if name.endswith(".py") else sorted((ROOT / name).glob("test_*.py"))
        )
    ]
    for path in paths:
        file = path.relative_to(ROOT).as_posix()
        digest = hashlib.sha256(path.read_bytes()).hexdigest()
        if known.get(file, {}).get("digest") != digest:
            print(f"watching {file}", flush=True)
            out = KEPT / "watched.json"
            os.waitpid(forked(lambda file=file: tests_of(file), 900, out), 0)
            result = json.loads(out.read_text(encoding="utf-8"))
            if "error" in result:
                sys.exit(f"{file}: {result['error']}")
            known[file] = {"digest": digest, "tests": result}
            kept.write_text(json.dumps(known), encoding="utf-8")
        found[file] = known[file]["tests"]
    return found


def meeting(mutant: Mutant, tests: Tests) -> list[list[str]]:
    """The tests that enter a mutant's function, in two turns, the quickest first."""

    def enters(functions: list[str]) -> bool:
        if mutant.function:
            return f"{mutant.path}:{mutant.function}" in functions
        return any(function.startswith(f"{mutant.path}:") for function in functions)

    by_file: dict[str, list[tuple[float, str]]] = defaultdict(list)
    for file, inside in tests.items():
        for test, (seconds, functions) in inside.items():
            if enters(functions) and seconds <= SLOWEST:
                by_file[file].append((seconds, test))
    near = mutant.path.rpartition("/")[2].removesuffix(".py")

    def quick(file: str) -> tuple[bool, float]:
        # The file named like the module, then those with many quick tests.
        return (near not in file, -sum(seconds < 0.3 for seconds, _ in by_file[file]))

    files = sorted(by_file, key=quick)
    turns = [files[:FIRST_FILES], files[FIRST_FILES:]]
    return [[t for _, t in sorted(e for file in turn for e in by_file[file])] for turn in turns]


def judged(mutant: Mutant, turns: list[list[str]], ready: Ready) -> dict[str, Any]:
    """Whether some collected test notices the mutant, changed in memory, and which.

    Where none does, or the change cannot be made so, it is to be judged ``anew``.
    """
    if put_in_place(mutant):
        for turn in turns:
            failed = ready.run(turn)
            if failed:
                return {"noticed": True, "by": failed}
    return {"noticed": False, "by": "", "anew": True}


def judged_anew(mutant: Mutant, turns: list[list[str]], tests: Tests) -> dict[str, Any]:
    """Whether some test notices the mutant when it was there before anything else."""
    sys.meta_path.insert(0, InItsPlace(mutant))
    for turn in turns:
        files = sorted({test.partition("::")[0] for test in turn})
        if not files:
            continue
        chosen = Chosen(turn, tests)
        code = run(files, chosen)
        if code not in (pytest.ExitCode.OK, pytest.ExitCode.NO_TESTS_COLLECTED):
            if code == pytest.ExitCode.USAGE_ERROR and not chosen.first:
                return {"error": f"pytest was called wrongly for {files}"}
            return {"noticed": True, "by": chosen.first or "the reading of the tests"}
    return {"noticed": False, "by": ""}


def seconds_for(turns: list[list[str]], tests: Tests) -> float:
    usual = sum(tests[test.partition("::")[0]][test][0] for turn in turns for test in turn)
    return 20 + 10 * usual


def kept_results() -> dict[tuple[str, str, int], dict[str, Any]]:
    """What is known, the latest of each mutant."""
    file = KEPT / "found.jsonl"
    lines = file.read_text(encoding="utf-8").splitlines() if file.exists() else []
    results = [json.loads(line) for line in lines]
    return {(result["path"], result["digest"], result["at"]): result for result in results}


Judge = Callable[[Mutant, list[list[str]]], dict[str, Any]]


def go_through(mutants: list[Mutant], tests: Tests, jobs: int, judge: Judge) -> None:
    """Try mutants, some at once, and keep what became of each as soon as it is known."""
    waiting: list[Mutant] = list(reversed(mutants))
    running: dict[int, tuple[Mutant, Path]] = {}
    done = 0
    with (KEPT / "found.jsonl").open("a", encoding="utf-8") as kept:
        while waiting or running:
            while waiting and len(running) < jobs:
                mutant = waiting.pop()
                turns = meeting(mutant, tests)
                out = KEPT / f"result-{mutant.path.replace('/', '-')}-{mutant.at}.json"
                seconds = seconds_for(turns, tests)
                child = forked(lambda m=mutant, t=turns: judge(m, t), seconds, out)
                running[child] = mutant, out
            child, status = os.wait()
            mutant, out = running.pop(child)
            if os.WIFSIGNALED(status):
                result = {"noticed": True, "by": "the time that it takes"}
            else:
                result = json.loads(out.read_text(encoding="utf-8"))
            out.unlink(missing_ok=True)
            if "error" in result:
                raise AssertionError(f"{mutant}: {result['error']}")
            kept.write(json.dumps({**asdict(mutant), **result}) + "\n")
            kept.flush()
            done += 1
            if not result["noticed"] and not result.get("anew"):
                print(f"survived: {mutant}", flush=True)
            if done % 50 == 0:
                print(f"{done} of {len(mutants)} tried", flush=True)


def unchanged(tests: list[str], ready: Ready) -> str:
    """What fails with nothing changed but what is kept from earlier calls forgotten: nothing."""
    forget()
    return ready.run(tests)


def in_memory(mutants: list[Mutant], tests: Tests, jobs: int) -> None:
    """Try mutants of functions on tests that are collected once, in a process of their own.

    Raises AssertionError when the tests do not pass there with nothing changed.
    """

    def work(ready: Ready) -> None:
        usable = [test for inside in tests.values() for test in inside if test in ready.items]
        out = KEPT / "unchanged.json"
        quick = [test for test in usable if ready.usual[test] <= SLOWEST]
        os.waitpid(forked(lambda: unchanged(quick, ready), 900, out), 0)
        failed = json.loads(out.read_text(encoding="utf-8"))
        if failed:
            raise AssertionError(f"with nothing changed: {failed}")
        go_through(mutants, tests, jobs, lambda mutant, turns: judged(mutant, turns, ready))

    child = os.fork()
    if not child:
        try:
            options = ["-q", "-p", "no:cacheprovider", "-p", "no:xdist", "--tb=short"]
            code = pytest.main([*options, *tests], plugins=[Ready(tests, work)])
            os._exit(int(code))
        finally:
            os._exit(1)
    code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    if code:
        raise AssertionError(f"the tests do not run in memory: exit code {code}")


def report(mutants: list[Mutant]) -> None:
    """Totals by file, then the survivors."""
    known = kept_results()
    totals: dict[str, Counter[str]] = defaultdict(Counter)
    survivors = []
    for mutant in mutants:
        result = known.get((mutant.path, mutant.digest, mutant.at))
        state = "noticed" if result and result["noticed"] else "survived"
        if result is None or result.get("anew"):
            state = "not tried"
        totals[mutant.path][state] += 1
        if state == "survived":
            survivors.append(mutant)
    for path, counted in totals.items():
        print(
            f"{path}: {', '.join(f'{count} {state}' for state, count in sorted(counted.items()))}"
        )
    for mutant in survivors:
        print(f"survived: {mutant}")
    together = sum(totals.values(), Counter())
    print(f"{len(mutants)} mutants: " + ", ".join(f"{n} {s}" for s, n in sorted(together.items())))


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("paths", nargs="*", help="files or folders (all of both when not given)")
    parser.add_argument("--sample", type=int, help="so many mutants, chosen by --seed")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=1, help="mutants tried at once")
    parser.add_argument("--tests", nargs="*", default=NOTICING, help="files or folders of tests")
    parser.add_argument("--again", action="store_true", help="try those that survived once more")
    parser.add_argument("--report", action="store_true", help="try none, say what is known")
    chosen = parser.parse_args()
    os.chdir(ROOT)
    os.environ["CI"] = "1"  # the same examples each time
    KEPT.mkdir(parents=True, exist_ok=True)
    files = [
        file
        for path in chosen.paths or FOLDERS
        for file in (
            [path]
            if path.endswith(".py")
            else sorted(f"{path}/{p.name}" for p in (ROOT / path).glob("*.py"))
        )
    ]
    mutants = [mutant for file in files for mutant in mutants_of(file)]
    if chosen.sample is not None and chosen.sample < len(mutants):
        mutants = random.Random(chosen.seed).sample(mutants, chosen.sample)
    if not chosen.report:
        tests = known_tests(tuple(chosen.tests))
        known = kept_results()

        def state(mutant: Mutant) -> dict[str, Any]:
            return known.get((mutant.path, mutant.digest, mutant.at), {})

        again = [m for m in mutants if chosen.again and state(m).get("noticed") is False]
        new = [m for m in mutants if not state(m) or m in again]
        if in_functions := [mutant for mutant in new if mutant.function]:
            in_memory(in_functions, tests, chosen.jobs)
        known = kept_results()
        anew = [
            mutant
            for mutant in mutants
            if not state(mutant)
            or state(mutant).get("anew")
            or (mutant in again and not mutant.function)
        ]
        print(f"{len(anew)} to be tried anew", flush=True)
        go_through(anew, tests, chosen.jobs, lambda m, turns: judged_anew(m, turns, tests))
    report(mutants)


if __name__ == "__main__":
    main()
