import pytest

from teardowns.reading.markings import written


@pytest.mark.parametrize(
    ("token", "volts", "kind"),
    [("400V", 400.0, None), ("1KV", 1000.0, None), ("250~", 250.0, "ac"), ("275VAC", 275.0, "ac"),
     ("250V~", 250.0, "ac"), ("63VDC", 63.0, "dc")],
)  # fmt: skip
def test_a_voltage_is_read_with_its_kind(token, volts, kind):
    assert written.read_voltage(token) == (volts, kind)


@pytest.mark.parametrize("token", ["105°C", "+105°C", "-40+105°C", "-25°C~+105°C", "105C"])
def test_the_upper_temperature_is_read(token):
    assert written.read_temperature(token) == 105.0


def test_a_power_may_be_a_fraction():
    assert written.read_power("1/4W") == 0.25
    assert written.read_power("2W") == 2.0


def test_look_alikes_and_loose_units_are_brought_together():
    assert written.plain("4,7 μF 400 V a.c.") == "4.7µF 400VAC"
