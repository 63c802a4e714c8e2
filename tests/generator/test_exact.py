"""Arithmetic that is the same on every machine: exact, or one step of IEEE 754 after another."""

import ast
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis.extra.numpy import arrays
from hypothesis.strategies import floats

from generator.results.judging_many import mean, multiplied, summed

GENERATOR = Path(__file__).parents[2] / "generator"

IN_NO_PROMISED_ORDER = {
    *("sum", "nansum", "cumsum", "mean", "nanmean", "average", "median", "std", "var", "trace"),
    *("prod", "nanprod", "cumprod", "dot", "vdot", "inner", "matmul", "tensordot", "einsum"),
    *("convolve", "correlate", "cov", "norm", "trapezoid", "interp"),
}
"""What numpy adds or multiplies in an order of its own (numpy manual, "sum", notes: pairwise
along the fast axis alone; the list is from memory)."""

CHANCES = arrays(np.float64, (4, 9, 3), elements=floats(0, 1))


def modules(folder: Path) -> Iterator[tuple[str, ast.Module]]:
    for path in sorted(folder.rglob("*.py")):
        yield str(path.relative_to(GENERATOR)), ast.parse(path.read_text("utf-8"))


def loads_numpy(tree: ast.Module) -> bool:
    return any(
        isinstance(one, ast.Import) and any(name.name == "numpy" for name in one.names)
        for one in ast.walk(tree)
    )


def test_nothing_is_summed_in_an_order_that_numpy_chooses() -> None:
    looked_at = {name: tree for name, tree in modules(GENERATOR) if loads_numpy(tree)}
    assert "results/judging_many.py" in looked_at
    found = [
        f"{name}:{one.lineno}"
        for name, tree in looked_at.items()
        for one in ast.walk(tree)
        if (isinstance(one, ast.Attribute) and one.attr in IN_NO_PROMISED_ORDER)
        or (isinstance(one, ast.BinOp) and isinstance(one.op, ast.MatMult))
    ]
    assert found == []


def test_only_chances_are_floats_and_none_of_them_is_rounded() -> None:
    """Floats stand in ``results/`` alone; what leaves it rounded is rounded as a fraction."""
    found = []
    for name, tree in modules(GENERATOR):
        is_of_results = name.startswith("results/")
        for one in ast.walk(tree):
            is_float = isinstance(one, ast.Constant) and isinstance(one.value, float)
            if is_float and not is_of_results:
                found.append(f"{name}:{one.lineno}")
            if not isinstance(one, ast.Call) or not isinstance(one.func, ast.Name):
                continue
            called, given = one.func.id, [ast.unparse(argument) for argument in one.args]
            if called == "float" or (called == "round" and not given[0].startswith("Fraction(")):
                found.append(f"{name}:{one.lineno}")
    assert found == []


@given(CHANCES)
def test_a_sum_along_an_axis_is_that_of_python_one_after_another(chances: np.ndarray) -> None:
    added = summed(chances, 1)
    for row in range(4):
        for column in range(3):
            whole = 0.0
            for chance in chances[row, :, column].tolist():
                whole += chance
            assert added[row, column] == whole


def test_of_nothing_the_sum_is_0_and_the_product_1() -> None:
    assert summed(np.ones((2, 0, 3)), 1).tolist() == [[0.0] * 3] * 2
    assert multiplied([]) == 1.0


@given(CHANCES)
def test_a_product_is_that_of_python_one_after_another(chances: np.ndarray) -> None:
    assert (multiplied(chances) == chances[0] * chances[1] * chances[2] * chances[3]).all()


@given(arrays(np.float64, 20, elements=floats(0, 1)))
def test_a_mean_is_exact_in_any_order(chances: np.ndarray) -> None:
    exact = sum(map(Fraction, chances.tolist()), Fraction()) / 20
    assert mean(chances) == exact == mean(chances[::-1])


@pytest.mark.parametrize("tiny", [2.0**-1074, 2.0**-60])
def test_a_mean_keeps_the_smallest_chance(tiny: float) -> None:
    assert mean(np.array([1.0, tiny])) == (1 + Fraction(tiny)) / 2
