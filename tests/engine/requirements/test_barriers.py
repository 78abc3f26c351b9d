"""What a barrier needs at both ends of what is assumed."""
import numpy as np
import pytest

from teardowns.engine.requirements.barriers import required_distances, supply

NAN = float("nan")


def mains(rated=240.0, plug="", category=NAN):
    return supply(np.array([rated]), np.array([plug]), np.array([category]))


def needed(at=None, **more):
    """The `Distances` of reinforced insulation at a static point, nothing else known."""
    unknown = dict.fromkeys(("working_voltage_rms", "working_voltage_peak",
                             "working_voltage_frequency", "rated_altitude"), NAN)
    return required_distances(at or mains(), **{"reinforced": True, "transformer": False}
                              | unknown | more)


def mm(pair):
    return [round(float(end[0]) * 1e3, 6) for end in pair]


def taken(assumed):
    return {name for name, part in assumed.items() if part[0]}


# IEC 60664-1, table F.1: 120 V 1500 V, 240 V 2500 V, 4000 V in category III. A German, British or
# European plug means 230 V, a North American one 120 V.
@pytest.mark.parametrize("known, transient, assumed", [
    ({}, (2500.0, 2500.0), {"overvoltage_category"}),
    ({"category": 3.0}, (4000.0, 4000.0), set()),
    ({"rated": NAN}, (1500.0, 2500.0), {"mains_voltage", "overvoltage_category"}),
    ({"rated": NAN, "plug": "nema1"}, (1500.0, 1500.0), {"plug_mains", "overvoltage_category"}),
    ({"rated": NAN, "plug": "bs1363"}, (2500.0, 2500.0), {"plug_mains", "overvoltage_category"}),
    # A plug that fits 230 V is pushed into them, whatever the plate says; 220 V bear 230 V.
    ({"rated": 120.0, "plug": "schuko"}, (1500.0, 2500.0), {"overvoltage_category",
                                                            "plug_above_plate"}),
    ({"rated": 220.0, "plug": "schuko"}, (2500.0, 2500.0), {"overvoltage_category"}),
    ({"rated": 240.0, "plug": "nema1"}, (2500.0, 2500.0), {"overvoltage_category"}),
    ({"rated": 120.0}, (1500.0, 1500.0), {"overvoltage_category", "plug_fits_plate"}),
    ({"rated": 690.0}, (NAN, NAN), {"overvoltage_category"}),
])
def test_the_plate_goes_before_the_plug(known, transient, assumed):
    found = mains(**known)
    np.testing.assert_array_equal(np.ravel(found.transient), transient)
    assert taken(found.assumed) == assumed


# Test reports on chargers: 3.0 and 5.0 mm at 240 V; 281 V rms at a transformer 5.8 mm. By the
# table: 285 V lies between 2.5 and 3.2 mm, 2.85 → 2.9, twice 5.8; 160 V 1.6 mm, twice 3.2.
@pytest.mark.parametrize("rated, transformer, clearance, creepage", [
    (240.0, False, [3.0, 3.0], [5.0, 5.0]), (240.0, True, [3.0, 3.0], [5.0, 5.8]),
    (120.0, False, [2.54, 2.54], [3.0, 3.0]), (120.0, True, [2.54, 2.54], [3.0, 3.2]),
    (NAN, False, [2.54, 3.0], [3.0, 5.0]), (NAN, True, [2.54, 3.0], [3.0, 5.8]),
])
def test_what_a_charger_needs_where_nothing_was_measured(rated, transformer, clearance, creepage):
    found = needed(mains(rated), transformer=transformer)
    assert mm(found.clearance) == clearance and mm(found.creepage) == creepage
    assert {"working_voltage", "working_peak", "pollution_degree", "altitude",
            "material_group"} <= taken(found.assumed)


# 281 V: 2.81 → 2.9, twice 5.8. 240 V: 2.4, twice 4.8.
@pytest.mark.parametrize("measured, transformer, creepage", [
    (281.0, True, [5.8, 5.8]), (281.0, False, [5.0, 5.8]),
    # 28 V is a slip or no reading at 240 V, which lie across the barrier: 240 V is the other end.
    (28.0, True, [3.0, 4.8]), (240.0, True, [4.8, 4.8]), (240.0, False, [5.0, 5.0]),
])
def test_a_measured_voltage_decides_in_the_transformer_and_only_adds_elsewhere(
        measured, transformer, creepage):
    found = needed(transformer=transformer, working_voltage_rms=measured)
    assert mm(found.creepage) == creepage and "working_voltage" not in taken(found.assumed)


# Table 11: 1400 V above 30 kHz 5.64 mm; table 10 at 1400 V is less than its 2.54 mm at 2000 V.
@pytest.mark.parametrize("frequency, clearance", [(64.1e3, 5.64), (50.0, 3.0), (NAN, 5.64)])
def test_a_peak_counts_as_fast_unless_its_frequency_is_known_to_be_low(frequency, clearance):
    found = needed(transformer=True, working_voltage_peak=1400.0,
                   working_voltage_frequency=frequency)
    assert mm(found.clearance) == [clearance, clearance]


# Table 17 at 250 V: group III 2.5 mm at degree 2, 4.0 mm at degree 3; both twice.
@pytest.mark.parametrize("known, pollution, creepage", [
    ({"contaminated": 1.0}, [2.0, 3.0], [5.0, 8.0]),
    ({"contaminated": 0.0}, [2.0, 2.0], [5.0, 5.0]),
    ({"pollution_degree": 3.0}, [3.0, 3.0], [8.0, 8.0]),
    ({"pollution_degree": 1.0, "contaminated": 1.0}, [1.0, 3.0], [3.0, 8.0]),
    ({"pollution_degree": 1.0}, [1.0, 2.0], [3.0, 5.0]),
])
def test_visible_dirt_is_looked_at_as_the_worst_degree_too(known, pollution, creepage):
    found = needed(**known)
    assert [float(end[0]) for end in found.pollution] == pollution
    assert mm(found.creepage) == creepage


def test_basic_insulation_and_thin_air():
    # 1.5 and 2.5 mm line to neutral (test reports); 3.0 · 1.48 = 4.44 mm at 5000 m.
    basic = needed(reinforced=False)
    assert mm(basic.clearance) == [1.5, 1.5] and mm(basic.creepage) == [2.5, 2.5]
    high = needed(rated_altitude=5000.0)
    assert mm(high.clearance) == [4.44, 4.44] and "altitude" not in taken(high.assumed)
