"""Load tests: what a log of voltage and current says a port can deliver."""
from teardowns.logs.load_tests.read_load_test import read_load_test

__all__ = ["read_load_test"]
