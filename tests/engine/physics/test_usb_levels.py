"""Sources: CC thresholds and windows, Texas Instruments TPS65981 and TUSB320, Nordic; charging
modes, Texas Instruments TPS65987, TPS65988 and TPS2513 family; resistors, contact ratings and the
200 Ω of BC 1.2 from memory.
"""
import numpy as np
import pytest

from teardowns.engine.physics.usb_levels import (
    CONTACTS,
    DATA_MODES,
    LEGACY_CABLE,
    LOGIC_SUPPLIES,
    PULL_DOWN,
    PULL_UPS,
    SAFE_5V,
    WINDOWS,
    advertised_current,
    contact_voltage,
    driven_voltage,
)

NAN = float("nan")


@pytest.mark.parametrize("microamperes, volts, window", [
    # I · 5.1 kΩ, worked out by hand
    (80, 0.408, WINDOWS[0]), (180, 0.918, WINDOWS[1]), (330, 1.683, WINDOWS[2]),
])
def test_the_current_sources_land_in_their_windows(microamperes, volts, window):
    contact = driven_voltage(microamperes * 1e-6, PULL_DOWN)
    assert contact == pytest.approx(volts, abs=5e-4)
    assert window[0] < contact < window[1]


@pytest.mark.parametrize("kilohms, volts, window", [
    # 5 V · 5.1 / (Rp + 5.1), worked out by hand
    (56, 0.417, WINDOWS[0]), (22, 0.941, WINDOWS[1]), (10, 1.689, WINDOWS[2]),
])
def test_the_pull_ups_to_5_volts_land_in_their_windows(kilohms, volts, window):
    contact = contact_voltage(5.0, kilohms * 1e3, PULL_DOWN)
    assert contact == pytest.approx(volts, abs=5e-4)
    assert window[0] < contact < window[1]


@pytest.mark.parametrize("amperes", PULL_UPS)
def test_each_way_to_say_a_current_is_read_as_that_current(amperes):
    to_5_volts, to_3_volts, source = PULL_UPS[amperes]
    contacts = np.array([contact_voltage(LOGIC_SUPPLIES[0], to_5_volts, PULL_DOWN),
                         contact_voltage(LOGIC_SUPPLIES[1], to_3_volts, PULL_DOWN),
                         driven_voltage(source, PULL_DOWN)])
    assert advertised_current(contacts).tolist() == [amperes] * 3


@pytest.mark.parametrize("volts, amperes", [
    (0.20, 0.5), (0.65, 0.5), (0.66, 1.5), (1.22, 1.5), (1.23, 3.0), (2.04, 3.0)])
def test_the_thresholds_divide_the_currents(volts, amperes):
    assert advertised_current(volts) == amperes


@pytest.mark.parametrize("volts", [0.0, 0.19, 2.05, 5.0, NAN])
def test_outside_the_windows_no_source_is_seen(volts):
    assert np.isnan(advertised_current(volts))


def test_no_pull_up_at_all_pulls_nothing():
    assert contact_voltage(5.0, np.inf, PULL_DOWN) == 0
    assert driven_voltage(0.0, PULL_DOWN) == 0


def test_many_contacts_are_read_as_one_by_one():
    volts = np.array([0.1, 0.4, NAN, 0.9, 1.7])
    alone = [float(advertised_current(each)) for each in volts]
    assert advertised_current(volts).tolist() == pytest.approx(alone, nan_ok=True)


def test_the_levels_of_the_data_contacts():
    assert {name: mode.current for name, mode in DATA_MODES.items()} == {
        "open": 0.5, "shorted": 1.5, "divider": 2.4}


def test_the_limits_of_the_connectors():
    assert [CONTACTS[name][:2] for name in ("usb_a", "usb_c", "micro_b")] == [
        (1.5, 3.0), (3.0, 5.0), (1.8, 1.8)]


def test_5_volts_are_safe_from_4_75_to_5_5():
    assert SAFE_5V == (4.75, 5.5)


def test_a_legacy_cable_says_the_default():
    assert advertised_current(contact_voltage(5.0, 56e3, PULL_DOWN)) == LEGACY_CABLE
