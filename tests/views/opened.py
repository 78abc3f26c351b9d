"""One opened charger, recorded and assessed: an invented 45 W unit that gives about 15 W."""
from copy import deepcopy

from teardowns.services.assess_units import assess_units
from teardowns.services.import_unit import import_unit
from tests.published import confirm_all, published

PLATE = "VELTRICE VQ-45\nINPUT: 100-240V~ 50/60Hz 0.6A\nOUTPUT: 5V⎓3A 20V⎓2.25A <Max>"


def _printed(key, text, **fields):
    start = PLATE.index(text)
    return {"key": key, "printed_text": "plate", "text": text, "start": start,
            "end": start + len(text), "how": "read_off"} | fields


DOCUMENT = {
    "form": "underplate-unit/1",
    "unit": {"maker": "Veltrice", "model": "VQ-45", "title": "Veltrice VQ-45, labelled 45 W",
             "obtained_on": "2026-03-14", "channel": "marketplace", "price": 11.9,
             "currency": "EUR", "photographed_sides": 2},
    "printed_texts": [{"key": "plate", "source": "plate", "text": PLATE, "how": "read_off"}],
    "claims": [
        _printed("input", "100-240V~ 50/60Hz 0.6A", kind="input", voltage_low=100.0,
                 voltage_high=240.0, frequency_low=50.0, frequency_high=60.0, current=0.6),
        _printed("out-5", "5V⎓3A", kind="output", voltage_low=5.0, voltage_high=5.0, current=3.0),
        _printed("out-20", "20V⎓2.25A", kind="output", voltage_low=20.0, voltage_high=20.0,
                 current=2.25),
        _printed("model", "VQ-45", kind="model", mark="VQ-45"),
    ],
    "ports": [{"key": "c1", "label": "C1", "connector": "usb_c", "wiring": "chip",
               "advertised": ["0A01912C"]}],
    "components": [
        {"key": "bulk", "role": "bulk_capacitor", "designator": "C1", "marking": "15µF 400V",
         "nominal": 1.5e-5, "tolerance": 0.2, "rated_voltage": 400.0, "how": "decoded",
         "note": "Sleeve <partly> glued.", "review_state": "confirmed"},
        {"key": "y1", "role": "barrier_capacitor", "state": "not_readable"},
        {"key": "x1", "role": "x_capacitor", "state": "not_found"},
        {"key": "opto", "role": "optocoupler", "state": "not_looked"},
    ],
    "stack": [{"key": "l1", "position": 1, "kind": "winding", "winding": "primary",
               "turns": 52.0, "bare_diameter": 2.3e-4, "wire_insulation": "enamel"}],
    "insulation": [
        {"key": "slot", "path": "clearance", "place": "Slot under the optocoupler",
         "value": 0.0034, "uncertainty": 0.0001, "uncertainty_kind": "interval"},
        {"key": "seam", "path": "clearance", "place": "Mains pin to case seam",
         "barrier": "PRI_ENC", "state": "not_looked"},
    ],
    "measurements": [
        {"key": "mass", "quantity": "mass_total", "value": 0.0462},
        {"key": "height", "quantity": "case_height", "value": 0.05},
        {"key": "width", "quantity": "case_width", "value": 0.04},
        {"key": "depth", "quantity": "case_depth", "value": 0.021},
        {"key": "bulk", "quantity": "bulk_capacitance", "value": 1.52e-5, "uncertainty": 3e-7,
         "uncertainty_kind": "standard"},
        {"key": "held", "quantity": "sustained_power", "value": 13.0, "uncertainty": 0.3,
         "uncertainty_kind": "interval", "port": "c1", "mains_voltage": 100.0,
         "mains_frequency": 50.0, "output_voltage": 5.0, "duration": 1800.0, "ambient": 25.0},
    ],
}


def opened(contributor, status="published", **changed):
    """The unit with its assessment; `changed` replaces whole lists of the document."""
    unit = import_unit(deepcopy(DOCUMENT) | changed, contributor,
                       "in_review" if status == "published" else status)
    if status == "published":
        confirm_all(unit)
        published(unit)
    assess_units([unit])
    return unit
