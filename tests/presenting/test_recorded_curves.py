"""Load curves under the names of unit and port, with the band of each voltage that was set."""
from teardowns.logs.conditions import Conditions
from teardowns.models import Port, Recording, Unit
from teardowns.presenting.recorded_curves import shown_curves


def recording(key="load-sweep-1", **stated):
    return Recording(key=key, kind="load_sweep", unit=Unit(pk=7, title="Veltrice <VQ>"),
                     port=Port(label="C1"), conditions=Conditions(**stated).to_json())


CURVE = ((0.0, 5.1), (1.0, 5.0), (2.0, 4.9))


def test_without_a_curve_there_is_no_drawing():
    assert shown_curves([], False) is None
    assert shown_curves([(recording(), ())], False) is None


def test_a_curve_is_called_by_port_voltage_and_mains_and_leads_to_its_log():
    curves = shown_curves([(recording(set_voltage=5.0, mains_voltage=230.0), CURVE)], False)
    assert "port C1, 5.00\u202fV, 230\u202fV mains" in curves.drawing
    assert "/units/7/recordings/load-sweep-1/" in curves.drawing + curves.table
    assert "from 5.10\u202fV to 4.90\u202fV at 2 A" in curves.drawing


def test_among_several_units_each_is_named_as_text():
    curves = shown_curves([(recording(), CURVE)], True)
    assert "Veltrice &lt;VQ&gt;" in curves.drawing and "<VQ>" not in curves.drawing + curves.table


def test_each_voltage_that_was_set_has_its_band():
    curves = shown_curves([(recording(set_voltage=5.0), CURVE),
                           (recording("load-sweep-2", set_voltage=5.0), CURVE)], False)
    assert "5.00\u202fV ± 5 %" in curves.drawing
