"""Confirmed evidence beside all evidence, in words."""
from teardowns.presenting.review_sides import SAME, sides_told


def side(claims=(), capability=None, level="", findings=()):
    return {"claims": list(claims), "capability": capability, "level": level,
            "findings": list(findings)}


def claim(verdict, p=0.02, ref="claim/out"):
    return {"ref": ref, "printed": "5V 3A", "verdict": verdict, "plausibility": p, "power": 15.0}


def finding(level="serious"):
    return {"scenario": "loose", "title": "Loose metal", "level": level, "evidence": []}


def told(confirmed, everything):
    return sides_told({"confirmed": confirmed, "all": everything})


def test_a_claim_that_nobody_confirmed_has_no_verdict_of_its_own():
    sides = told(side(), side([claim("implausible")]))
    assert sides.rows[0].confirmed == "not confirmed as printed"
    assert sides.changes == ["1 claim is judged only once somebody confirms that they are "
                             "printed."]


def test_a_verdict_that_would_change_is_told_both_ways():
    sides = told(side([claim("possible", 0.6)]), side([claim("implausible")]))
    assert sides.changes == ["“5V 3A”: possible from confirmed evidence, implausible from all."]
    assert "p = 0.02" in sides.rows[0].everything and sides.rows[0].differs


def test_no_evidence_has_no_plausibility_beside_it():
    sides = told(side([claim("no evidence", 0.7)]), side([claim("no evidence", 0.7)]))
    assert "p =" not in sides.rows[0].confirmed


def test_findings_that_come_go_or_change_their_level_are_told():
    assert told(side(), side(findings=[finding()])).changes == [
        "A serious finding would come in: Loose metal."]
    assert told(side(findings=[finding()]), side()).changes == [
        "A serious finding would go: Loose metal."]
    assert told(side(findings=[finding("low")]), side(findings=[finding()])).changes == [
        "“Loose metal” would be serious and is low on confirmed evidence."]


def test_where_both_sides_say_the_same_it_says_so():
    same = side([claim("possible")], [10.0, 12.0, 15.0], "low", [finding("low")])
    sides = told(same, same)
    assert sides.changes == [SAME] and not any(row.differs for row in sides.rows)


def test_what_is_not_known_is_no_zero():
    sides = told(side(), side(capability=[13.1, 14.0, 16.7]))
    capability, level = sides.rows
    assert sides.changes == ["What it can deliver: not known yet from confirmed evidence, 13.1 to "
                             "16.7\u202fW from all."]
    assert (capability.confirmed, capability.everything) == ("not known yet", "13.1 to 16.7\u202fW")
    assert level.confirmed == "none"


def test_before_the_engine_has_spoken_there_is_nothing():
    assert sides_told({}) is None
