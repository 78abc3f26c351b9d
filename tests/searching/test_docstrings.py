import doctest
import importlib
import pkgutil

import pytest

import teardowns.searching

MODULES = [module.name for module in pkgutil.iter_modules(teardowns.searching.__path__)]


@pytest.mark.parametrize("name", MODULES)
def test_the_examples_in_docstrings_hold(name):
    assert doctest.testmod(importlib.import_module(f"teardowns.searching.{name}")).failed == 0
