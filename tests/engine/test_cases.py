import numpy as np
import pytest

from teardowns.engine import rulebook
from teardowns.engine.cases import headline_claims, make_cases
from teardowns.engine.conditions import Observations
from teardowns.engine.defaults import fill_defaults
from teardowns.engine.evidence import pool_evidence
from tests.engine.make import NAN, claim_table, evidence_table, watts

SEVERAL = [(5.0, 3.0, NAN), (9.0, 2.0, NAN), (20.0, 2.25, NAN)]


def cases(observations, claims, several=False):
    table, claims = evidence_table(observations), claim_table(claims)
    return make_cases(claims, fill_defaults(pool_evidence(table), claims), Observations.of(table),
                      rulebook.load().power, np.array([several]))


def test_a_unit_is_one_case_where_nothing_depends_on_the_voltage():
    made = cases([], SEVERAL)
    assert made.unit.tolist() == [0] and made.of_claim.tolist() == [0, 0, 0]


def test_a_lost_load_makes_each_claimed_voltage_a_case():
    made = cases([("failed_power", 12.0, 0.1, 100.0, 5.0)], SEVERAL)
    assert made.voltage.tolist() == [5.0, 9.0, 20.0]
    assert made.of_claim.tolist() == [0, 1, 2]


TWO = [(20.0, 2.25, NAN, "usb_c", "output", 0), (20.0, 2.25, NAN, "usb_c", "output", 1),
       (NAN, NAN, 65.0, "", "total", -1, True)]


@pytest.mark.parametrize("port, several, count", [(0, True, 3), (-1, True, 1), (0, False, 1)])
def test_a_lost_load_that_names_a_port_makes_each_port_a_case(port, several, count):
    # A case each for port 0, port 1 and the whole unit; all claims stand at 20 V.
    made = cases([("failed_power", 50.0, 0.1, 100.0, 20.0, port)], TWO, several)
    assert len(made.unit) == count
    assert sorted(set(made.port.tolist())) == ([-1, 0, 1] if count == 3 else [-1])


def test_the_headline_is_the_case_of_the_largest_power():
    made = cases([("failed_power", 12.0, 0.1, 100.0, 5.0)], SEVERAL)     # 15, 18 and 45 W
    assert made.voltage[made.headline[0]] == 20.0


def test_the_headline_claim_is_the_first_of_the_largest_or_none():
    table = claim_table([watts(5.0), watts(9.0), watts(9.0)], [(9.0, NAN, NAN)])
    assert headline_claims(table, 3).tolist() == [1, -1, -1]


def test_a_unit_without_claims_is_a_case_too():
    made = cases([], [])
    assert made.unit.tolist() == [0] and np.isfinite(made.voltage).all()


def test_the_span_of_a_case_is_that_of_its_claims():
    low, high = cases([], SEVERAL).span(claim_table(SEVERAL))
    assert (low.tolist(), high.tolist()) == ([15.0], [45.0])
