"""The engine's tables: sorted, traceable, and the same for a unit alone and among others."""
import numpy as np
import pytest

from teardowns.engine.quantities import CODES
from teardowns.exchange.document import read_document
from teardowns.exchange.tables import engine_tables, judged_claims, refs_behind
from tests.exchange.small import small
from tests.exchange.whole_document import WHOLE


def claims(*rows, **lists):
    return engine_tables([small(claims=rows, **lists)]).claims


def test_rows_are_sorted_by_unit_code_and_evidence():
    table = engine_tables([read_document(WHOLE), small(), read_document(WHOLE)]).evidence
    order = np.lexsort((table.evidence_id, table.code, table.row))
    assert order.tolist() == list(range(len(table.row)))
    assert table.units.tolist() == [0, 1, 2]


def test_every_number_leads_back_to_its_row():
    tables = engine_tables([small(), read_document(WHOLE)])
    found = {CODES[code]: refs_behind(tables.refs[ref])
             for code, ref in zip(tables.evidence.code, tables.evidence.evidence_id, strict=True)}
    assert found["sustained_power"] == ["measurement/held"]
    assert found["rated_voltage_low"] == ["claim/input"]
    assert tables.refs[tables.claims.claim_id[0]] == "1:claim/out-5v"


def test_a_sum_leads_back_to_all_its_rows():
    tables = engine_tables([small(components=[
        {"role": "bulk_capacitor", "nominal": 1e-5}, {"role": "bulk_capacitor", "nominal": 1e-5}])])
    at = tables.evidence.code.tolist().index(CODES.index("bulk_capacitance_marked"))
    ref = tables.refs[tables.evidence.evidence_id[at]]
    assert refs_behind(ref) == ["component/r0", "component/r1"]


def test_a_unit_gets_the_same_rows_alone_and_among_others():
    document = read_document(WHOLE)
    alone = engine_tables([document]).evidence
    among = engine_tables([small(), document]).evidence
    mine = among.row == 1
    for name in ("code", "value", "u", "mains_voltage", "output_voltage", "port", "scale"):
        np.testing.assert_array_equal(getattr(alone, name), getattr(among, name)[mine])


def test_no_documents_make_empty_tables():
    tables = engine_tables([])
    assert len(tables.evidence.row) == len(tables.claims.row) == len(tables.refs) == 0


def test_output_total_and_listed_power_are_judged_and_nothing_else():
    rows = [{"kind": "output", "voltage_low": 5.0}, {"kind": "total", "power": 18.0},
            {"kind": "listing", "power": 45.0}, {"kind": "listing", "voltage_low": 9.0},
            {"kind": "input", "voltage_low": 100.0}, {"kind": "output", "current": 3.0},
            {"kind": "mark", "mark": "class_ii"},
            {"kind": "output", "voltage_low": 5.0, "state": "not_readable"},
            {"kind": "output", "voltage_low": 5.0, "review_state": "disputed"}]
    document = small(claims=rows)
    assert [row["key"] for row in judged_claims(document)] == ["r0", "r1", "r2"]
    assert engine_tables([document]).claims.kind.tolist() == ["output", "total", "listing"]


def test_what_is_not_printed_is_unknown():
    table = claims({"kind": "total", "power": 18.0})
    assert np.isnan([table.voltage[0], table.current[0]]).all()
    assert table.connector.tolist() == [""]


def test_a_range_does_not_claim_its_highest_voltage_at_its_full_current():
    row = {"kind": "output", "voltage_low": 3.3, "voltage_high": 11.0, "current": 3.0}
    table = claims(row)
    assert table.voltage[0] == 11.0
    assert np.isnan(table.claimed_power[0])
    assert claims(row | {"power": 33.0}).claimed_power[0] == 33.0


def test_readings_carry_the_number_of_their_port_and_claims_of_theirs():
    tables = engine_tables([small(), small(
        ports=[{"key": "c1", "label": "C1"}, {"key": "c2", "label": "C2"}],
        claims=[{"kind": "output", "power": 18.0, "port": "C2"},
                {"kind": "output", "power": 30.0, "shared": True},
                {"kind": "total", "power": 30.0}],
        measurements=[{"quantity": "sustained_power", "value": 18.0, "port": "c2"}])])
    held = tables.evidence.of("sustained_power")
    assert (held.row.tolist(), held.port.tolist()) == ([1], [1])
    assert tables.claims.port.tolist() == [1, -1, -1]
    assert tables.claims.shared.tolist() == [False, True, False]
    assert tables.ports.label.tolist() == ["C1", "C2"]
    assert tables.evidence.of("photographed_sides").port.tolist() == [-1, -1]


def test_a_load_of_all_ports_together_is_told_from_one_of_no_named_port():
    loads = [{"key": "m1", "quantity": "failed_power", "value": 33.0, "all_ports": True},
             {"key": "m2", "quantity": "failed_power", "value": 13.0}]
    table = engine_tables([small(ports=PORTS, measurements=loads)]).evidence.of("failed_power")
    assert dict(zip(table.value.tolist(), table.port.tolist(), strict=True)) == {33.0: -2, 13.0: -1}


def test_a_part_of_a_shared_power_is_of_the_port_that_it_names():
    rows = [{"kind": "output", "power": 30.0, "shared": True, "port": "USB-C1"},
            {"kind": "output", "power": 20.0, "shared": True, "port": "USB-C1+USB-A"}]
    table = engine_tables([small(ports=PORTS, claims=rows)]).claims
    assert (table.port.tolist(), table.connector.tolist()) == ([0, -1], ["usb_c", ""])


def test_a_total_that_names_ports_is_none_of_the_unit():
    rows = [{"kind": "total", "power": 65.0, "shared": True},
            {"kind": "total", "power": 63.0, "shared": True, "port": "USB-C1+USB-C2"},
            {"kind": "total", "power": 24.0, "port": "USB-A"}]
    table = engine_tables([small(ports=PORTS, claims=rows)]).claims
    assert table.shared.tolist() == [False, True, True]
    assert table.port.tolist() == [-1, -1, 1]


def test_lengths_read_from_one_photo_share_its_scale():
    photos = [{"key": key, "sha256": key * 64} for key in "ab"]
    lengths = [{"quantity": "core_width", "value": 0.016, "photo": "b"},
               {"quantity": "core_depth", "value": 0.005, "photo": "b"},
               {"quantity": "core_height", "value": 0.014}]
    table = engine_tables([small(photos=photos, measurements=lengths)]).evidence
    assert [table.of(row["quantity"]).scale.tolist() for row in lengths] == [[1], [1], [-1]]


PORTS = [{"label": "USB-C1", "connector": "usb_c"}, {"label": "USB-A", "connector": "usb_a"}]


@pytest.mark.parametrize(("port", "connector"), [
    ("usb-c1", "usb_c"), ("USB-A", "usb_a"), ("r1", "usb_a"), ("Type-C", "usb_c"), ("", ""),
    ("USB-C1+USB-A", ""), ("USB charger", ""), ("left", "")])
def test_a_claim_finds_the_connector_of_the_port_it_names(port, connector):
    row = {"kind": "output", "voltage_low": 5.0, "current": 3.0, "port": port}
    assert claims(row, ports=PORTS).connector.tolist() == [connector]


def test_where_all_ports_are_alike_a_claim_need_not_name_one():
    row = {"kind": "output", "voltage_low": 5.0, "current": 3.0}
    assert claims(row, ports=PORTS[:1]).connector.tolist() == ["usb_c"]
    assert claims(row | {"shared": True}, ports=PORTS[:1]).connector.tolist() == [""]
