"""Source power rules of USB PD revision 3.x, two public renderings of the table: 18 W asks for
9 V 2 A, 30 W for 15 V 2 A, 65 W for 20 V 3.25 A, and all of them for the lower voltages at 3 A.
"""
import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.source_power_rules import source_power_rules
from tests.engine.make import NAN
from tests.engine.rules.ask import checks
from tests.engine.rules.usb_words import SIXTY_FIVE


def check_label(*ratings, connector="usb_c", words=()):
    volts, amperes = zip(*ratings, strict=True)
    watts = tuple(v * a for v, a in ratings)
    return source_power_rules(connector, words, volts, amperes, watts)


@pytest.mark.parametrize("ratings", [
    [(5, 3), (9, 2)], [(5, 3), (9, 3), (15, 2)], [(5, 3), (9, 3), (15, 3), (20, 3.25)],
    [(5, 3), (9, 2.22), (12, 1.67)], [(5, 3), (9, 3), (12, 3), (15, 3), (20, 5)]])
def test_a_whole_set_is_consistent(ratings):
    assert check_label(*ratings).outcome == CONSISTENT


def test_20_volts_5_amperes_mean_the_whole_list():
    done = check_label((20, 5))
    assert done.outcome == CANNOT_TELL
    for rating in ("5\u202fV 3\u202fA", "9\u202fV 3\u202fA", "15\u202fV 3\u202fA"):
        assert rating in done.sentence
    assert "cable marked for 5 A" in done.sentence


def test_a_printed_current_below_the_mandatory_one_contradicts_a_port_with_a_list():
    # 20 V 3.25 A: 65 W, for which 5 V is mandatory at 3 A
    done = check_label((5, 2), (9, 3), (15, 3), (20, 3.25), words=SIXTY_FIVE)
    assert done.outcome == INCONSISTENT
    assert "has to offer 5\u202fV 3\u202fA; the label prints 2\u202fA at 5\u202fV" in done.sentence


def test_other_protocols_on_a_type_c_port_follow_other_rules():
    # 18 W: 5 V is mandatory at 3 A, for a source of USB Power Delivery
    done = check_label((5, 2), (9, 2), (12, 1.5))
    assert done.outcome == CANNOT_TELL
    assert "no capability list was read" in done.sentence


def test_12_volts_are_said_to_be_optional():
    assert "12 V is optional" in check_label((5, 3), (9, 3), (12, 2.25)).sentence
    assert "optional" not in check_label((5, 3), (9, 3)).sentence


def test_the_programmable_range_beside_is_no_fixed_rating():
    done = source_power_rules("usb_c", (), (5.0, 9.0, 11.0), (3.0, 2.0, NAN), (15.0, 18.0, NAN))
    assert done.outcome == CONSISTENT


def test_the_power_printed_for_the_port_counts():
    # 65 W printed beside 5 V and 9 V: 15 V and 20 V are missing
    done = source_power_rules("usb_c", (), (5.0, 9.0, NAN), (3.0, 3.0, NAN), (15.0, 27.0, 65.0))
    assert done.outcome == CANNOT_TELL
    assert "20\u202fV 3.25\u202fA" in done.sentence


@pytest.mark.parametrize("connector, ratings", [
    ("usb_a", [(5, 3), (12, 3)]), ("usb_c", [(5, 3)]), ("usb_c", [(5, 2.4)]),
    ("barrel", [(20, 3.25)])])
def test_other_connectors_and_plain_5_volts_have_nothing_to_check(connector, ratings):
    assert check_label(*ratings, connector=connector) is None


def test_a_port_with_a_power_and_no_ratings_has_nothing_to_check():
    assert source_power_rules("usb_c", (), (NAN,), (NAN,), (65.0,)) is None


def test_only_the_claims_of_a_port_are_its_set():
    claims = [(5.0, 3.0, NAN, "usb_c", "output", 0), (20.0, 3.25, NAN, "usb_c", "output", 0),
              (9.0, 3.0, NAN, "usb_c", "output", 1)]
    ports = [("C1", "usb_c"), ("C2", "usb_c")]
    done = checks(source_power_rules, [], claims, ports)
    assert [each["outcome"] for each in done] == [CANNOT_TELL, CANNOT_TELL]
    assert "9\u202fV 3\u202fA and 15\u202fV 3\u202fA" in done[0]["sentence"]
