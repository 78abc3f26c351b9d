"""The table of security requirements: every one has its verdict, every test that it names exists.

OWASP ASVS 5.0.0 has 70 requirements of level 1 and 183 more of level 2; of level 3 the table has
those that the site takes on.
"""
import ast
import csv
import re
from collections import Counter
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parent.parent
NODE = re.compile(r"(tests/[\w/]+\.py)::(test_\w+)")
# Requirements of levels 1 and 2 by chapter, counted in the standard's own CSV.
BY_CHAPTER = {1: 27, 2: 11, 3: 19, 4: 10, 5: 9, 6: 35, 7: 18, 8: 7, 9: 7, 10: 29, 11: 14, 12: 9,
              13: 13, 14: 9, 15: 13, 16: 16, 17: 7}


def rows():
    lines = (ROOT / "fixtures" / "asvs.csv").read_text("utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@cache
def named_in(path):
    """Names of the tests in a file, read and not run."""
    file = ROOT / path
    if not file.exists():
        return frozenset()
    return frozenset(node.name for node in ast.walk(ast.parse(file.read_text("utf-8")))
                     if isinstance(node, ast.FunctionDef))


def test_every_requirement_of_levels_one_and_two_is_there_once():
    levels, chapters = Counter(), Counter()
    for row in rows():
        levels[row["level"]] += 1
        if row["level"] != "3":
            chapters[int(row["requirement"].split(".")[0])] += 1
    assert (levels["1"], levels["2"]) == (70, 183) and set(levels) == {"1", "2", "3"}
    assert chapters == BY_CHAPTER
    numbers = [tuple(map(int, row["requirement"].split("."))) for row in rows()]
    assert numbers == sorted(set(numbers)) and all(len(number) == 3 for number in numbers)


def test_each_has_a_verdict_with_its_evidence():
    for row in rows():
        named = NODE.findall(row["evidence"])
        assert row["what"] and row["chapter"], row
        assert row["status"] in ("test", "reason", "open"), row
        assert named if row["status"] == "test" else len(row["evidence"]) > 10, row


def test_every_test_that_is_named_exists():
    missing = {f"{row['requirement']}: {path}::{name}" for row in rows()
               for path, name in NODE.findall(row["evidence"]) if name not in named_in(path)}
    assert not missing, "\n".join(sorted(missing))


def test_nothing_is_open():
    still_open = [f"{row['requirement']} {row['what']}: {row['evidence']}" for row in rows()
                  if row["status"] == "open"]
    assert not still_open, "\n".join(still_open)
