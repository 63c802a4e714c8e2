"""What a teacher writes: the specs that ship, and the code that reads them into frozen values."""

from specs.loading import load_spec
from specs.problems import Problem, SpecError
from specs.reading import read_spec
from specs.schema import schema
from specs.shipped import DEMO, shipped, shipped_names
from specs.spec import Spec

__all__ = [
    "DEMO",
    "Problem",
    "Spec",
    "SpecError",
    "load_spec",
    "read_spec",
    "schema",
    "shipped",
    "shipped_names",
]
