from teardowns.engine import rulebook
from teardowns.engine.checks import claim_facts, run_checks, subjects
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.ports import PortTable
from tests.engine.make import NAN, WIDE, claim_table, judge, port_table


def outcomes(observations, claims):
    done = judge(observations, claims)
    found = run_checks(rulebook.load(), {None: done.frame}, done.claims, done.ports)
    return {(one.rule.id, one.subject.claim): one.outcome for one in found}


def test_each_claim_meets_each_check_that_concerns_it():
    found = outcomes([*WIDE, ("rated_input_current", 0.1, 0.0)],
                     [(5.0, 2.1, 5.0, "micro_b"), (5.0, 1.0, NAN, "barrel")])
    assert found["checks/plate_arithmetic", 0].outcome == INCONSISTENT       # 10.5 against 5 W
    assert found["checks/connector_current", 0].outcome == INCONSISTENT      # 2.1 of 1.8 A
    assert {key for key in found if key[1] == 1} == {("checks/plate_input_balance", 1)}


def test_the_power_of_a_claim_is_printed_or_computed():
    facts = claim_facts(claim_table([(5.0, 2.0, NAN, "usb_a")]), 0, PortTable.none())
    assert facts["claim_power"] == 10.0 and facts["claim_printed_power"] != 10.0
    assert facts["claim_connector"] == "usb_a"


def test_a_check_that_lacks_a_plate_cannot_tell():
    found = outcomes([], [(5.0, 2.0, 10.0, "usb_a_high_current")])
    assert found["checks/plate_input_balance", 0].outcome == CANNOT_TELL
    assert found["checks/plate_arithmetic", 0].outcome == CONSISTENT       # 5 V × 2 A = 10 W


def test_a_claim_without_figures_gives_nothing_to_check():
    assert outcomes([*WIDE, ("rated_input_current", 0.5, 0.0)], [(NAN, NAN, NAN, "usb_c")]) == {}


CLAIMS = [(5.0, 3.0, NAN, "usb_c", "output", 0), (5.0, 2.4, NAN, "usb_a", "output", 1),
          (NAN, NAN, 27.0, "", "total", -1, True)]
PORTS = port_table([("C", "usb_c", "chip", (0x0A01912C,)), ("A", "usb_a", "shorted")])


def test_a_claim_knows_its_port():
    facts = claim_facts(claim_table(CLAIMS), 1, PORTS)
    assert (facts["claim_port"], facts["claim_wiring"]) == ("A", "shorted")
    assert facts["claim_words"] == ()
    assert claim_facts(claim_table(CLAIMS), 0, PORTS)["claim_words"] == (0x0A01912C,)


def test_a_total_belongs_to_no_port():
    facts = claim_facts(claim_table(CLAIMS), 2, PORTS)
    assert (facts["claim_port"], facts["claim_shared"]) == ("", True)


def test_a_unit_of_one_port_has_no_other():
    facts = claim_facts(claim_table([(5.0, 2.0, NAN)]), 0, port_table([("C", "usb_c")]))
    assert facts["claim_port"] == "C"


def test_a_unit_is_checked_once_and_each_port_and_claim():
    found = list(subjects(claim_table(CLAIMS), PORTS))
    assert [one.on for one in found] == ["unit", "port", "port", "claim", "claim", "claim"]
    assert found[0].facts["claimed_powers"] == (15.0, 12.0, 27.0)
    assert found[2].facts["port_currents"] == (2.4,)


def test_a_claim_of_one_connector_may_mean_the_ports_that_have_it():
    hub = port_table([("A1", "usb_a"), ("A2", "usb_a"), ("C", "usb_c"), ("dusty", "")])
    named, unnamed = (claim_facts(claim_table([(5.0, 3.0, NAN, connector)]), 0, hub)
                      for connector in ("usb_a", ""))
    # Both of type A and the one whose connector was not read; without a connector any.
    assert (named["claim_outlets"], unnamed["claim_outlets"]) == (3, 4)
