"""Expected: at a fixed frequency the on-time goes with the root of the load, by L·I²/2 once a
period; 12 W beside 3 W is twice the on-time."""
from teardowns.logs.conditions import Conditions
from teardowns.logs.extracted import Extracted, Told
from teardowns.logs.layout import Layout, LogColumn
from teardowns.models import Recording
from teardowns.presenting.load_following import load_following


def capture(load, on_time, role="switch_voltage"):
    layout = Layout("utf-8", ",", ".", 2, (LogColumn(0, "t", "time", "s"),
                                           LogColumn(1, "V", role, "V")))
    results = [Extracted("switching_frequency", "f", 65e3, 10.0, "Hz", 0.0, 1e-4),
               Extracted("on_time", "t", on_time, 1e-8, "s", 0.0, 1e-4),
               Told("conduction_mode", "mode", "discontinuous", "It is.", 0.0, 1e-4)]
    recording = Recording(layout=layout.to_json(), conditions=Conditions(load=load).to_json())
    return recording, [result.to_json() | {"name": result.code} for result in results]


def test_two_loads_of_one_node_tell_how_it_follows():
    node, = load_following([capture(12.0, 4e-6), capture(3.0, 2e-6)])
    assert node["node"] == "voltage at the primary switch"
    assert node["says"].startswith("Fixed frequency")


def test_one_load_tells_nothing():
    assert load_following([capture(12.0, 4e-6)]) == []


def test_captures_of_two_nodes_are_not_mixed():
    assert load_following([capture(12.0, 4e-6), capture(3.0, 2e-6, "winding_voltage")]) == []


def test_a_capture_without_a_stated_load_tells_nothing():
    assert load_following([capture(None, 4e-6), capture(3.0, 2e-6)]) == []
