import pytest

from teardowns.engine.port_claims import PortClaim, listed, port_claims
from tests.engine.make import NAN


@pytest.mark.parametrize("claim, words", [
    ((9.0, 2.0, 18.0), "9 V 2 A"), ((12.0, NAN, NAN), "12 V"), ((NAN, NAN, 65.0), "65 W")])
def test_a_claim_is_told_by_what_of_it_is_printed(claim, words):
    assert PortClaim(*claim).words.replace("\u202f", " ") == words


@pytest.mark.parametrize("voltage, above", [(5.0, False), (5.5, False), (9.0, True), (NAN, False)])
def test_5_volts_are_the_voltage_of_every_port(voltage, above):
    assert PortClaim(voltage, 1.0, NAN).is_above_5v == above


def test_the_figures_of_a_port_belong_together_by_place():
    assert port_claims((5.0, 9.0), (3.0, 2.0), (15.0, 18.0))[1] == PortClaim(9.0, 2.0, 18.0)


def test_names_are_listed_once_each():
    assert listed(["9 V", "12 V", "9 V", "20 V"]) == "9 V, 12 V and 20 V"
    assert listed(["9 V"]) == "9 V"
