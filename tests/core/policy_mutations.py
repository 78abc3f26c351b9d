"""Take away each permission line in turn, and say which cell of the grid notices it.

`python -m tests.core.policy_mutations [part of a name …]` goes through them all, or through those
whose name holds one of the parts. It exits 1 when a line could go without being missed.

The lines are those of `core.policy.POLICY` (opened to everybody, a role more, a role less, without
good standing) and, in `teardowns/access/`, each operand, condition and lookup by which somebody is
let in or kept out. The tests below tests/access/ are tried first, for they take a few minutes; the
grid is asked about what they did not notice.
"""
from __future__ import annotations

import os
import sys

import pytest

CHOSEN, EVERY = "POLICY_MUTANTS", "all"
LAST = "test_every_line_is_missed_when_it_goes"


def main(parts: list[str]) -> int:
    """In a database of its own, which pytest makes and takes down."""
    os.environ[CHOSEN] = "\n".join(parts) or EVERY
    return pytest.main(["-q", "-s", "-p", "no:playwright", "-p", "tests.core.access_mutants",
                        "tests/access/", "tests/core/test_policy_mutations.py::" + LAST])


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
