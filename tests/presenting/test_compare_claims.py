"""Claims beside their verdicts."""
from copy import deepcopy

from teardowns.presenting.compare_claims import compared_claims
from tests.figures.sample_report import REPORT

from .compared import columns, compared


def test_the_largest_claim_comes_first_with_verdict_and_working():
    first, rest = compared_claims(columns(compared(pk=3), compared(pk=4)))
    text = first.cells[0].text
    assert "“20V⎓2.25A”" in text and "not attainable on this evidence" in text
    assert 'href="/units/3/claims/out-20/"' in text and "at 240\u202fV 50\u202fHz" in text
    assert "“9V⎓3A”" in rest.cells[0].text and "supported" in rest.cells[0].text


def test_a_unit_without_a_power_claim_says_so():
    report = deepcopy(REPORT) | {"claims": [], "headline": None}
    first, *_ = compared_claims(columns(compared(report=report), compared()))
    assert "no power claim was recorded" in first.cells[0].text


def test_without_further_claims_there_is_one_row():
    report = deepcopy(REPORT)
    report["claims"] = report["claims"][:1]
    assert len(compared_claims(columns(compared(report=report), compared(report=report)))) == 1


def test_of_equally_large_claims_the_one_that_the_verdict_is_about_comes_first():
    report = deepcopy(REPORT)
    report["claims"][1]["power"], report["headline"] = 45.0, 1
    first, _ = compared_claims(columns(compared(report=report), compared()))
    assert "“9V⎓3A”" in first.cells[0].text and "“20V⎓2.25A”" not in first.cells[0].text
