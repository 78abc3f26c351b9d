"""A formula says what it takes: the same names as its signature, each with a unit."""
import doctest
import importlib
import inspect
import pkgutil
import re

import pytest

from teardowns.engine import physics

MODULES = [importlib.import_module(module.name) for module in
           pkgutil.iter_modules(physics.__path__, physics.__name__ + ".")]
FORMULAS = [
    formula for module in MODULES
    for _, formula in inspect.getmembers(module, inspect.isfunction)
    if formula.__module__ == module.__name__ and "Parameters\n" in (formula.__doc__ or "")
]
PARAMETER = re.compile(r"^(\w+) : .+\n((?:    .+\n)+)", re.MULTILINE)
by_name = pytest.mark.parametrize("formula", FORMULAS, ids=lambda f: f.__name__)


def section(formula, title):
    text = inspect.getdoc(formula)
    return re.split(r"\n(?=\w+\n-+\n)", text.split(f"{title}\n{'-' * len(title)}\n")[1])[0] + "\n"


@by_name
def test_parameters_match_the_signature_and_carry_units(formula):
    described = dict(PARAMETER.findall(section(formula, "Parameters")))
    assert list(described) == list(inspect.signature(formula).parameters)
    for name, text in described.items():
        assert re.search(r"\[[^\]]+\]", text), f"{name} has no unit"


@pytest.mark.parametrize("title", ["Returns", "Errors", "References", "Examples"])
@by_name
def test_it_says_what_comes_back_how_wrong_and_from_where(formula, title):
    assert section(formula, title).strip()


@pytest.mark.parametrize("module", MODULES, ids=lambda m: m.__name__)
def test_the_examples_come_out_as_printed(module):
    assert doctest.testmod(module).failed == 0


def test_every_formula_of_the_rectifier_is_covered():
    module = importlib.import_module("teardowns.engine.physics.rectifier")
    public = [name for name, item in inspect.getmembers(module, inspect.isfunction)
              if item.__module__ == module.__name__ and not name.startswith("_")]
    assert set(public) <= {formula.__name__ for formula in FORMULAS}


@pytest.mark.parametrize("module", MODULES, ids=lambda m: m.__name__)
def test_every_module_of_physics_has_a_formula_that_is_covered(module):
    assert any(formula.__module__ == module.__name__ for formula in FORMULAS)
