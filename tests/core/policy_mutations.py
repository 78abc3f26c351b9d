"""Take away each permission line in turn, and say which cell of the grid notices it.

`python -m tests.core.policy_mutations [part of a name …]` goes through them all, or through those
whose name holds one of the parts. It exits 1 when a line could go without being missed.

The lines are those of `core.policy.POLICY` (opened to everybody, a role more, a role less, without
good standing) and, in `teardowns/access/`, each operand of a condition that lets somebody in or
keeps somebody out.
"""
from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

CHOSEN, EVERY = "POLICY_MUTANTS", "all"


def main(parts: list[str]) -> int:
    """In a database of its own, which pytest makes and takes down."""
    os.environ[CHOSEN] = " ".join(parts) or EVERY
    return pytest.main(["-q", "-s", "-p", "no:playwright",
                        str(Path(__file__).with_name("test_policy_mutations.py")),
                        "-k", "every_line"])


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
