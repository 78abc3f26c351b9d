from teardowns.presenting.checks_section import check_rows, remarks
from teardowns.presenting.links import Links
from tests.figures.sample_report import REPORT


def check(claim, outcome="consistent", sentence="3 A lies within the 3 A of the contact."):
    return {"id": "checks/connector_current", "title": "Current against the connector",
            "claim": claim, "outcome": outcome, "sentence": sentence, "numbers": {}}


def rows(*checks):
    return check_rows(REPORT | {"checks": list(checks)}, Links(7))


def test_claims_of_which_a_check_says_the_same_share_a_row():
    row, = rows(check("claim/out-5"), check("claim/out-9"))
    assert [text for _, text in row.claims] == ["“5V⎓3A”", "“9V⎓3A”"]


def test_what_does_not_agree_comes_first():
    found = rows(check("claim/out-5"), check("claim/out-9", "cannot tell", "Not printed."),
                 check("claim/out-20", "inconsistent", "2.25 A is more than 2 A."))
    assert ["inconsistent" in found[0].mark, "cannot tell" in found[1].mark] == [True, True]


def test_each_row_leads_to_its_claim_and_its_working():
    row, = rows(check("claim/out-5"))
    assert row.claims[0][0] == "#verdict-claim-out-5"
    assert row.working == "/units/7/working/checks/connector_current/low/"


def test_what_needs_reading_stands_apart_from_what_is_consistent():
    found = remarks(rows(*(check("claim/out-5", outcome, outcome)
                           for outcome in ("consistent", "inconsistent", "cannot tell"))))
    assert [row.outcome for row in found["remarked"]] == ["inconsistent", "cannot tell"]
    assert [row.outcome for row in found["consistent"]] == ["consistent"]
