from teardowns.engine import rulebook
from teardowns.engine.checks import claim_facts, run_checks
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from tests.engine.make import NAN, WIDE, claim_table, judge


def outcomes(observations, claims):
    done = judge(observations, claims)
    found = run_checks(rulebook.load(), done.frame, 0, done.claims, range(len(claims)))
    return {(rule.id, index): outcome for rule, index, outcome in found}


def test_each_claim_meets_each_check_that_concerns_it():
    found = outcomes([*WIDE, ("rated_input_current", 0.1, 0.0)],
                     [(5.0, 2.1, 5.0, "micro_b"), (5.0, 1.0, NAN, "barrel")])
    assert found["checks/plate_arithmetic", 0].outcome == INCONSISTENT       # 10.5 against 5 W
    assert found["checks/connector_current", 0].outcome == INCONSISTENT      # 2.1 of 1.8 A
    assert {key for key in found if key[1] == 1} == {("checks/plate_input_balance", 1)}


def test_the_power_of_a_claim_is_printed_or_computed():
    facts = claim_facts(claim_table([(5.0, 2.0, NAN, "usb_a")]), 0)
    assert facts["claim_power"] == 10.0 and facts["claim_printed_power"] != 10.0
    assert facts["claim_connector"] == "usb_a"


def test_a_check_that_lacks_a_plate_cannot_tell():
    found = outcomes([], [(5.0, 2.0, 10.0, "usb_a_high_current")])
    assert found["checks/plate_input_balance", 0].outcome == CANNOT_TELL
    assert found["checks/plate_arithmetic", 0].outcome == CONSISTENT       # 5 V × 2 A = 10 W


def test_a_claim_without_figures_gives_nothing_to_check():
    assert outcomes([*WIDE, ("rated_input_current", 0.5, 0.0)], [(NAN, NAN, NAN, "usb_c")]) == {}
