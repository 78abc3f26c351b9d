from copy import deepcopy

from teardowns.presenting.claims_section import claim_rows, decided, ratings
from teardowns.presenting.links import Links
from tests.figures.sample_report import CLAIMS, LINES, REPORT

LINE = {line["id"]: line for line in LINES}


def weighed(total, **decibans):
    claim = deepcopy(CLAIMS[0])
    weights = [{"line": f"power/{name}", "decibans": size, "kind": "limit"}
               for name, size in decibans.items()]
    return claim | {"weights": weights, "total_decibans": total}


def test_claims_stand_with_the_largest_first():
    found = claim_rows(REPORT, Links(7))
    assert [row.text for row in found] == ["“20V⎓2.25A”", "“9V⎓3A”", "“5V⎓3A”"]


def test_plausibility_is_given_at_both_mains_ends():
    last = claim_rows(REPORT, Links(7))[-1]
    assert [(p.mains, p.text) for p in last.plausibilities] == [
        ("100\u202fV 50\u202fHz", "0.91"), ("240\u202fV 50\u202fHz", "0.99")]


def test_the_lines_on_the_side_of_the_verdict_are_named():
    words = decided(weighed(-80.0, load_failed=-90.0, load_passed=12.0), LINE)
    assert words == "Left regulation, 17.2\u202fW (\u221290.0 decibans)"


def test_a_balance_of_heavy_lines_is_not_told_as_silence():
    assert "Held regulation" in decided(weighed(-0.5, load_passed=12.0), LINE)


def test_light_lines_decide_nothing():
    assert decided(weighed(1.0, mass=2.9), LINE) == (
        "No line of evidence weighs 3 decibans or more")


def test_a_rating_is_told_as_far_as_it_is_claimed():
    assert ratings({"voltage": None, "current": None, "power": 45.0}) == "45\u202fW"
    assert ratings(CLAIMS[0]) == "20\u202fV · 2.25\u202fA · 45\u202fW"


def test_a_contradiction_tells_which_reading_is_most_likely_wrong():
    report = deepcopy(REPORT)
    report["claims"][0]["suspects"] = [{"text": "the load", "share": 1.0}]
    first, *others = claim_rows(report, Links(7))
    assert first.suspicion == "Most likely wrong: the load."
    assert all(row.suspicion == "" for row in others)


def test_a_claim_names_its_port_where_it_is_known():
    """Two ports may print the same."""
    first = REPORT["claims"][0]["ref"]
    ports = {row.port for row in claim_rows(REPORT, Links(7), {first: "USB-C1"})}
    assert ports == {"USB-C1", ""} and {row.port for row in claim_rows(REPORT, Links(7))} == {""}
