"""Verdicts of documents: each its own, named after its rows, with what was taken for granted."""
import json

import pytest

from teardowns.engine import rulebook
from teardowns.engine.reference_set import ReferenceSet, with_reference
from teardowns.exchange import verdict
from teardowns.exchange.digest import digest
from teardowns.exchange.document import read_document
from teardowns.exchange.verdict import assumptions, verdicts
from tests.engine.golden import documents
from tests.exchange.small import small
from tests.exchange.whole_document import WHOLE

OUTPUT = {"kind": "output", "key": "out", "text": "5V⎓2A", "voltage_low": 5.0,
          "voltage_high": 5.0, "current": 2.0}


def bulk(**fields):
    return {"role": "bulk_capacitor", "nominal": 4.7e-6, "tolerance": 0.2} | fields


@pytest.fixture(scope="module")
def of_two_capacitors():
    return verdicts([small(claims=[OUTPUT], components=[bulk(), bulk(key="second")])])[0]


def line(report, line_id):
    return next(line for line in report["lines"] if line["id"] == line_id)


def test_nothing_to_judge_is_no_trouble():
    assert verdicts([]) == []


def test_a_unit_without_evidence_gets_no_evidence_for_a_verdict():
    (report,) = verdicts([small(claims=[OUTPUT])])
    assert report["claims"][0]["verdict"] == "no evidence"
    assert report["claims"][0]["plausibility"] == pytest.approx(0.5)     # even odds
    assert report["capability"] == {"low": None, "high": None}


def test_a_report_is_the_same_to_the_bit_alone_and_among_others():
    document = read_document(WHOLE)
    among = verdicts([small(claims=[OUTPUT]), document, small()])[1]
    assert json.dumps(among) == json.dumps(verdicts([document])[0])


def test_demo_units_in_slices_have_the_reports_that_they_have_alone(monkeypatch):
    units = list(documents().values())[::4]
    alone = [verdicts([one])[0] for one in units]
    monkeypatch.setattr(verdict, "SLICE", 4)
    assert json.dumps(verdicts(units)) == json.dumps(alone)


def test_digests_that_are_known_are_not_made_again():
    assert verdicts([small()], digests=["5f" * 32])[0]["evidence_digest"] == "5f" * 32


def test_a_report_carries_the_digest_of_its_evidence():
    document = read_document(WHOLE)
    assert verdicts([document])[0]["evidence_digest"] == digest(document)
    assert verdicts([document], True)[0]["evidence_digest"] == digest(document, True)


def test_a_report_says_by_which_rules_and_which_reference_set_it_was_made():
    document, rules = read_document(WHOLE), with_reference(rulebook.load(), ReferenceSet("set2-0a"))
    (plain,), (referenced,) = verdicts([document]), verdicts([document], rules=rules)
    assert (plain["rulebook"], plain["reference_set"]) == (rulebook.load().version, None)
    assert (referenced["rulebook"], referenced["reference_set"]) == (rules.version, "set2-0a")


def test_a_claim_keeps_its_printed_words_and_its_row(of_two_capacitors):
    (claim,) = of_two_capacitors["claims"]
    assert (claim["ref"], claim["printed"], claim["power"]) == ("claim/out", "5V⎓2A", 10.0)


def test_a_number_that_rests_on_two_rows_names_both(of_two_capacitors):
    evidence = line(of_two_capacitors, "power/bulk_capacitor")["evidence"]
    assert {"component/r0", "component/second"} <= set(evidence)


def test_a_disputed_capacitor_leaves_the_power_open_instead_of_halving_it():
    document = small(claims=[OUTPUT], components=[
        bulk(), bulk(key="second", review_state="disputed")])
    (report,) = verdicts([document])
    assert "power/bulk_capacitor" not in [one["id"] for one in report["lines"] if one["used"]]
    assert report["claims"][0]["verdict"] == "no evidence"


def test_of_confirmed_evidence_unconfirmed_claims_are_not_judged():
    (report,) = verdicts([small(claims=[OUTPUT])], confirmed_only=True)
    assert report["claims"] == []
    assert report["headline"] is None


def test_what_the_rulebook_took_for_granted_is_listed_once():
    found = assumptions(small(claims=[OUTPUT], components=[bulk()]))
    codes = [one["code"] for one in found]
    assert len(set(codes)) == len(codes)
    assert {"efficiency", "minimum_bus_voltage"} <= set(codes)
    assert all(one["default_source"] for one in found)


def test_a_report_is_plain_json():
    (report,) = verdicts([read_document(WHOLE)])
    assert json.loads(json.dumps(report, allow_nan=False)) == report
