"""How rows must hang together; each refusal names the place and the remedy."""
import pytest

from teardowns.exchange.document import DocumentError, read_document
from tests.exchange.whole_document import whole_document

CASES = [
    ("unit.obtained_on", "2026-02-30", "unit.obtained_on: 2026-02-30 is no day of the calendar"),
    ("unit.price", 1.005, "unit.price: 1.005 has more than two decimals"),
    ("measurements.0.photo", "x", r"measurements\[0\].photo: there is no \"x\" in photos; add it"),
    ("measurements.0.recording", "x", r"\[0\].recording: there is no \"x\" in recordings"),
    ("measurements.0.port", "x", r"measurements\[0\].port: there is no \"x\" in ports"),
    ("measurements.0.component", "x", r"\[0\].component: there is no \"x\" in components"),
    ("claims.1.printed_text", "x", r"claims\[1\].printed_text: .* in printed_texts"),
    ("components.1.part", "x", r"components\[1\].part: there is no \"x\" in parts"),
    ("components.1.key", "bulk-1", r"components\[1\].key: .* stands already at components\[0\]"),
    ("measurements.1.value", 1.0, r"measurements\[1\].value: state is not_readable; leave"),
    ("measurements.0.value", 2000.0, r"2000.0 W cannot be; .* between 0 and 1000 W"),
    ("measurements.0.duration", 599.0, r"measurements\[0\].duration: .* as peak_power"),
    ("measurements.0.all_ports", True, r"measurements\[0\].all_ports: .* leave out port or"),
    ("measurements.1.bound_kind", "", r"measurements\[1\].bound: .* come together; add the one"),
    ("measurements.1.state", "not_found", r"\[1\].bound: .* set state to not_readable"),
    ("measurements.1.bound", 11.0, r"measurements\[1\].bound: 11.0 cannot be; .* 0 and 10"),
    ("measurements.1.quantity", "bus_switch", r"measurements\[1\].bound: .* has no limit"),
    ("measurements.1.quantity", "failed_power", r"measurements\[1\].bound: .* has no limit"),
    ("measurements.0.uncertainty_kind", "", r"measurements\[0\].uncertainty: .* come together"),
    ("measurements.0.quantity", "bus_switch", r"is 1 \(present\) or 0 \(looked, not found\)"),
    ("insulation.0.value", 0.5, r"insulation\[0\].value: 0.5 m cannot be; Creepage"),
    ("claims.0.voltage_low", 300.0, r"claims\[0\].voltage_low: 300.0 lies above voltage_high"),
    ("claims.0.start", 29, r"claims\[0\].start: 29 lies above end 28; swap"),
    ("stack.0.winding", "", r"stack\[0\].winding: a layer of kind .winding. says which"),
    ("stack.1.winding", "shield", r"stack\[1\].winding: .* a layer of insulation does not"),
    ("stack.1.in_parallel", True, r"stack\[1\].in_parallel: only windings lie in parallel"),
    ("stack.2.winding", "secondary", r"stack\[2\].in_parallel: no layer of the secondary winding"),
    ("stack.2.position", 1, r"stack\[2\].in_parallel: .* lies before it; correct position"),
    ("components.0.port", "x", r"components\[0\].port: there is no \"x\" in ports; add it"),
]


@pytest.mark.parametrize(("place", "value", "message"), CASES)
def test_a_document_that_breaks_a_rule_is_refused(place, value, message):
    document = whole_document()
    *way, last = [int(step) if step.isdigit() else step for step in place.split(".")]
    target = document
    for step in way:
        target = target[step]
    target[last] = value
    with pytest.raises(DocumentError, match=message):
        read_document(document)


def refusal(change):
    document = whole_document()
    change(document)
    with pytest.raises(DocumentError) as refused:
        read_document(document)
    return str(refused.value)


def test_a_recorded_row_without_its_value_is_refused():
    text = refusal(lambda d: d["measurements"][0].pop("value"))
    assert "measurements[0].value: is missing; enter it, or set state to not_looked" in text


def test_one_log_that_stands_twice_is_refused():
    text = refusal(lambda d: d["recordings"].append(d["recordings"][0] | {"key": "again"}))
    assert f'recordings[1].sha256: "{"cd" * 32}" stands already at recordings[0]' in text


def test_two_ports_of_one_label_are_refused():
    text = refusal(lambda d: d["ports"].append(d["ports"][0] | {"key": "other"}))
    assert 'ports[1].label: "C1" stands already at ports[0]' in text


def test_one_photo_under_two_keys_is_refused():
    text = refusal(lambda d: d["photos"].append(d["photos"][0] | {"key": "other"}))
    assert "photos[1].sha256" in text


def test_a_part_that_nothing_cites_is_refused():
    text = refusal(lambda d: d["components"][1].pop("part"))
    assert "parts[0]: no component cites it" in text


def test_a_limit_cited_twice_is_refused():
    text = refusal(lambda d: d["parts"][0]["limits"].append(d["parts"][0]["limits"][0]))
    assert "parts[0].limits[1]: the same quantity with the same citation" in text


def test_a_claim_names_its_port_as_printed_not_by_key():
    document = whole_document()
    document["claims"][1]["port"] = "C1+C2"
    assert read_document(document)["claims"][1]["port"] == "C1+C2"


@pytest.mark.parametrize("place, refused", [("Pin 2 to c1 shell", True), ("elsewhere", False)])
def test_a_creepage_below_the_clearance_of_its_place_is_refused(place, refused):
    # IEC 62368-1, 5.4.3; the creepage of the whole document is 5.1 mm.
    document = whole_document()
    document["insulation"].append({"key": "air", "barrier": "PRI_ENC", "path": "clearance",
                                   "place": place, "value": 6.5e-3})
    if not refused:
        read_document(document)
        return
    with pytest.raises(DocumentError, match=r"insulation\[0\].value: the creepage is shorter"):
        read_document(document)
