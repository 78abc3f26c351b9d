from tests.engine.make import port_table

PORTS = port_table([("C1", "usb_c"), ("A", "usb_a")], [], [("out", "barrel", "", ())])


def test_ports_are_found_by_unit():
    assert [list(PORTS.of(unit)) for unit in range(3)] == [[0, 1], [], [2]]


def test_a_unit_has_several_ports_or_not():
    assert PORTS.several(4).tolist() == [True, False, False, False]


def test_the_ports_of_one_unit_alone():
    alone = PORTS.one(2)
    assert alone.label.tolist() == ["out"] and alone.row.tolist() == [0]
    assert PORTS.one(1).row.size == 0
