"""The demo units come out as they did in this edition, and as their scenario means them to.

When a number moves on purpose: raise EDITION in teardowns/engine/rulebook.py, renew the file by
`python -m tests.engine.golden > fixtures/golden/reports.json`, say why in the commit.
"""
import json
from functools import cache

import pytest

from teardowns.engine import rulebook
from tests.engine import golden

MOVED = (
    "moved; if that is meant, raise EDITION in teardowns/engine/rulebook.py in the same commit and "
    "renew the file: python -m tests.engine.golden > fixtures/golden/reports.json"
)
NAMES = sorted(golden.documents())
# By the number that begins a file's name; what each was made to show is in fixtures/README.md.
HOLD = [*range(1, 17), 35]
OVERSTATED = [*range(17, 27), 33, 34]
THIN = [27, 29, 31, 37]

now = cache(golden.golden)
reports = cache(golden.reports)


def kept():
    return json.loads(golden.FILE.read_text("utf-8"))


def close(a, b):
    """One unit in the third digit apart, for that one may round either way on another machine."""
    return a == b or None not in (a, b) and a == pytest.approx(b, rel=0.011, abs=1e-9)


def headline(number):
    name = next(name for name in NAMES if name.startswith(f"{number:02d}-"))
    report = reports()[name]
    return report["claims"][report["headline"]]


def test_the_golden_file_is_of_this_edition_and_of_these_units():
    assert kept()["edition"] == rulebook.load().edition
    assert sorted(kept()["units"]) == NAMES


@pytest.mark.parametrize("name", NAMES)
def test_the_verdicts_are_those_kept(name):
    before, after = (units["units"][name]["claims"] for units in (kept(), now()))
    assert before.keys() == after.keys(), f"claims of {name} {MOVED}"
    for key, claim in before.items():
        assert claim["verdict"] == after[key]["verdict"], f"{name} {key} {MOVED}"
        assert close(claim["plausibility"], after[key]["plausibility"]), f"{name} {key} {MOVED}"


@pytest.mark.parametrize("name", NAMES)
def test_the_capability_is_the_one_kept(name):
    before, after = (units["units"][name]["capability"] for units in (kept(), now()))
    for end in ("low", "high"):
        old, new = before[end] or {}, after[end] or {}
        assert old.keys() == new.keys(), f"{name} {end} {MOVED}"
        assert all(close(old[part], new[part]) for part in old), f"{name} {end} {MOVED}"


@pytest.mark.parametrize("number", HOLD)
def test_a_unit_that_holds_what_it_prints_is_supported(number):
    assert headline(number)["verdict"] == "supported"


@pytest.mark.parametrize("number", HOLD)
def test_no_claim_of_a_unit_that_holds_what_it_prints_is_doubted(number):
    name = next(name for name in NAMES if name.startswith(f"{number:02d}-"))
    words = {claim["verdict"] for claim in reports()[name]["claims"]}
    assert words <= {"supported", "possible", "no evidence"}


@pytest.mark.parametrize("number", OVERSTATED)
def test_a_unit_that_prints_more_than_it_holds_is_not_believed(number):
    assert headline(number)["verdict"] in {"implausible", "not attainable on this evidence"}


@pytest.mark.parametrize("number", THIN)
def test_thin_evidence_decides_nothing(number):
    assert headline(number)["verdict"] in {"no evidence", "possible"}


def test_a_test_passed_above_a_limit_is_named_a_contradiction():
    claim = headline(28)
    assert claim["verdict"] == "evidence contradicts itself"
    assert set(claim["contradiction"]) == {"power/sustained_power", "power/bulk_capacitor"}


def test_a_plate_that_cannot_be_read_makes_no_claim():
    name = next(name for name in NAMES if name.startswith("30-"))
    assert reports()[name]["claims"] == []
    assert reports()[name]["headline"] is None
