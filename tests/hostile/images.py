"""The hostile pictures: more than 500, made anew each time, each with what must follow.

`python -m tests.hostile.images FOLDER` writes them as files, to be tried by hand.
"""
import sys
from pathlib import Path

from . import damaged, disguised, floods, pictures, private

FAMILIES = (floods, private, pictures, damaged, disguised)
LARGEST = 2 * 10**6


def cases():
    """Every case of every family; its name begins with that of the family."""
    for family in FAMILIES:
        name = family.__name__.rpartition(".")[2]
        for case in family.cases():
            yield name, case


def main(folder):
    for family, case in cases():
        (Path(folder) / f"{family}-{case.name}").write_bytes(case.data)


if __name__ == "__main__":
    main(sys.argv[1])
