"""One document in which every key of the form is used, none at its default. Invented unit."""
from copy import deepcopy

_SEEN = {"state": "recorded", "how": "read_off", "photo": "board-top", "recording": "sweep",
         "note": "second look", "review_state": "confirmed"}


def _row(key, **fields):
    return {"key": key} | _SEEN | fields


WHOLE = {
    "form": "underplate-unit/1",
    "unit": {
        "uid": "6f1d7c1e-5f0a-4c39-9d51-0d3c5a5b7e11", "kind": "desktop", "maker": "Ostrava Lumen",
        "model": "OL-20", "title": "Ostrava Lumen OL-20, from a street stall",
        "obtained_on": "2026-03-14", "channel": "street", "price": 7.9, "currency": "EUR",
        "listing_reach": 1200, "plug": "Europlug", "photographed_sides": 2,
        "notes": "Bought new.\nSealed box – “20 W”.", "status": "in_review",
    },
    "printed_texts": [_row("plate", source="plate", text="INPUT 100-240V~ 50/60Hz 0.5A\n5V⎓3A")],
    "claims": [
        _row("input", kind="input", printed_text="plate", text="100-240V~ 50/60Hz 0.5A", start=6,
             end=28, voltage_low=100.0, voltage_high=240.0, frequency_low=50.0,
             frequency_high=60.0, current=0.5),
        _row("out-5v", kind="output", printed_text="plate", text="5V⎓3A", start=29, end=34,
             voltage_low=5.0, voltage_high=5.0, current=3.0, power=15.0, port="C1", shared=False),
        _row("class-2", kind="mark", text="⧈", mark="class_ii"),
    ],
    "ports": [_row("c1", label="C1", connector="usb_c", wiring="chip", high_current_contacts=True,
                   advertised=["0A01912C", "0002D12C"], cc_current=3.0)],
    "components": [
        _row("bulk-1", role="bulk_capacitor", designator="C1", place="beside the bridge", count=2,
             marking="6.8µF 400V", nominal=6.8e-6, tolerance=0.2, rated_voltage=400.0,
             rated_current=0.1, rated_power=0.5, ripple_current=0.08, on_resistance=0.02,
             diameter=8e-3, length=12e-3, safety_class="none", in_series=True, bridges="PRI_PE",
             port="c1"),
        _row("controller", role="primary_controller", marking="QX2204", part="QX2204"),
    ],
    "stack": [
        _row("layer-1", position=1, kind="winding", winding="primary", turns=84.5, strands=1,
             bare_diameter=2.1e-4, wire_insulation="enamel", thickness=5e-5, margin_left=1e-3,
             margin_right=1.5e-3, condition="neat", documented=True, sleeved=False),
        _row("layer-2", position=2, kind="insulation", tape_layers=2, material="tape",
             damage="damaged", withstood=4000.0),
        _row("layer-3", position=3, kind="winding", winding="primary", in_parallel=True),
    ],
    "insulation": [_row(
        "gap-1", barrier="PRI_ENC", path="creepage", place="pin 2 to C1 shell", value=5.1e-3,
        uncertainty=1e-4, uncertainty_kind="standard", method="photo_scale", material_group="IIIa",
        pollution_degree=2, site="board", situation="joint_open", shape="slot", coated=False,
        contaminated=True, slot={"end": 0.004, "start": -0.001, "width": 0.001},
        bridged_by="optocoupler")],
    "measurements": [
        _row("held", quantity="sustained_power", value=12.3, uncertainty=0.1,
             uncertainty_kind="interval", port="c1", component="bulk-1", mains_voltage=230.0,
             mains_frequency=50.0, output_voltage=5.0, output_current=2.46, duration=1800.0,
             ambient=-2.5, instrument="electronic load"),
        {"key": "mass", "state": "not_readable", "quantity": "mass_total", "bound": 0.05,
         "bound_kind": "at_least", "all_ports": True},
    ],
    "photos": [{"key": "board-top", "sha256": "ab" * 32, "original_name": "IMG_1.jpg",
                "media_type": "image/jpeg", "byte_size": 2_000_000, "width": 4000, "height": 3000,
                "stage": "component_side", "alt": "A board from above",
                "caption": "board, component side"}],
    "recordings": [{"key": "sweep", "kind": "load_sweep", "sha256": "cd" * 32,
                    "original_name": "sweep.csv", "byte_size": 51_000,
                    "instrument": "electronic load", "caption": "0 to 3 A",
                    "columns": {"current": "I [A]", "voltage": "U [V]"},
                    "extracted": {"sustained_power": 12.3}}],
    "parts": [{"marking": "QX2204", "function": "flyback controller with switch",
               "package": "SOP-7", "note": "invented",
               "limits": [{"quantity": "controller_power_wide", "value": 12.0,
                           "citation": "QX2204 data sheet, table 1"}]}],
    "replies": [{"about": "measurement/held", "by": "Veltrice Ltd", "version": 2,
                 "received": "2026-03-04", "language": "de", "text": "Wir haben es geändert.",
                 "disputes": True, "answer": "Measured again: the same."}],
    "licences": [{"author": "alma", "agreed": "2026-03-04", "measurements": "CC0-1.0",
                  "works": "CC-BY-4.0", "edition": 2, "text_sha256": "ef" * 32,
                  "third_party": "photo 3 by a friend, who agreed"}],
}


def whole_document():
    """A copy that a test may change."""
    return deepcopy(WHOLE)
