"""What a port advertises; words decoded in public logs and driver sources of USB Power Delivery."""
import pytest

from tests.exchange.observing.seen import seen, values

# 0A01912C is 5 V 3 A, 0002D12C is 9 V 3 A, 0004B1B1 is 15 V 4.33 A, 00064145 is 20 V 3.25 A.
LIST = ["0A01912C", "0002D12C", "0004B1B1", "00064145"]


def port(**fields):
    return {"ports": [{"key": "c1", "label": "C1", "connector": "usb_c"} | fields]}


def test_the_highest_voltage_and_the_largest_power_of_the_fixed_objects_count():
    assert values("advertised_voltage", **port(advertised=LIST)) == [20.0]
    assert values("advertised_power", **port(advertised=LIST)) == [pytest.approx(65.0)]


def test_a_programmable_range_is_no_fixed_voltage():
    # C9A42141 is 3.3 to 21 V.
    assert values("advertised_voltage", **port(advertised=[*LIST[:2], "C9A42141"])) == [9.0]


@pytest.mark.parametrize("words", [
    [], ["C9A42141"],                       # nothing fixed in it
    [*LIST[:2], "F0000000"],                # a word of no defined kind may offer more
    ["0A81912C", "000641F4"],               # EPR capable (B23), but the extended half is missing
])
def test_a_list_that_may_offer_more_than_it_shows_decides_nothing(words):
    assert values("advertised_voltage", **port(advertised=words)) == []
    assert values("advertised_power", **port(advertised=words)) == []


def test_an_extended_list_is_read_to_its_end():
    words = ["0A81912C", "000641F4", "0008C1F4"]                    # 20 V 5 A, 28 V 5 A
    assert values("advertised_power", **port(advertised=words)) == [pytest.approx(140.0)]


def test_the_pull_up_on_cc_names_its_current_and_its_port():
    (one,) = seen("type_c_current", **port(cc_current=3.0))
    assert (one.value, one.u, one.port, one.refs) == (3.0, 0.0, "c1", ("port/c1",))
    assert values("type_c_current", **port()) == []


def test_a_port_that_nobody_read_or_that_is_disputed_says_nothing():
    for quiet in ({"state": "not_readable"}, {"review_state": "disputed"}):
        assert values("advertised_voltage", **port(advertised=LIST, **quiet)) == []
