"""The comparison as a whole."""
from copy import deepcopy

from teardowns.engine.verdicts import WORDS
from teardowns.presenting.compare_sheet import SAID, compare_sheet
from tests.figures.sample_report import REPORT

from .compared import compared


def sheet(*reports):
    units = [compared(pk=pk, report=report) for pk, report in enumerate(reports, start=1)]
    return compare_sheet(units, [[] for _ in units])


def plain(**changed):
    return deepcopy(REPORT) | changed


def test_the_answer_counts_what_the_evidence_says_of_the_claims():
    unclaimed = plain(claims=[], headline=None)
    assert sheet(plain(), plain(), unclaimed)["lead"] == (
        "Of the three units examined, for two the claim is not attainable on the evidence; for one "
        "no power claim was recorded.")


def test_every_kind_of_verdict_has_its_sentence():
    assert {word for word, _ in SAID} == {*WORDS, ""}


def test_different_rulebooks_are_told():
    same = dict(sheet(plain(), plain())["foot"])["Rulebook"]
    other = dict(sheet(plain(), plain(rulebook="2+00000000"))["foot"])["Rulebook"]
    assert "different rulebooks" not in same and "different rulebooks" in other


def test_units_bear_letters_in_the_order_asked_for():
    assert [column.letter for column in sheet(plain(), plain())["columns"]] == ["A", "B"]


def test_the_version_of_each_record_is_named():
    foot = dict(sheet(plain(), plain())["foot"])
    assert foot["Records"] == "A: unit 1, version 1, B: unit 2, version 1"
