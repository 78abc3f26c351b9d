"""Rules: USB PD revision 3.x, source power rules; lists of 100 W and 65 W from public logs."""
import pytest

from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT
from teardowns.engine.rules.checks.capability_list import capability_list
from tests.engine.rules.ask import checks
from tests.engine.rules.usb_words import FIVE, HUNDRED, NINE, SIXTY_FIVE, TWENTY


@pytest.mark.parametrize("words, watts", [(HUNDRED, 100), (SIXTY_FIVE, 65)])
def test_published_lists_follow_the_rules(words, watts):
    done = capability_list(words)
    assert (done.outcome, done.numbers["power"]) == (CONSISTENT, watts)
    assert f"a source of {watts}\u202fW" in done.sentence


def test_a_missing_voltage_departs():
    # 20 V 3.25 A make 65 W, for which 15 V 3 A is mandatory
    done = capability_list((FIVE, NINE, TWENTY))
    assert done.outcome == INCONSISTENT
    assert "15\u202fV 3\u202fA is missing" in done.sentence


def test_a_word_that_cannot_be_read_leaves_it_open_and_is_named():
    done = capability_list((FIVE, NINE, 0xFFFFFFFF, TWENTY))
    assert done.outcome == CANNOT_TELL
    assert "FFFFFFFF" in done.sentence and "compare it with the log" in done.sentence


def test_5_amperes_are_told_to_need_a_marked_cable():
    assert "marked for 5 A" in capability_list(HUNDRED).sentence


def test_a_port_without_a_list_has_nothing_to_check():
    assert capability_list(()) is None
    assert capability_list((0,)) is None


def test_each_port_is_checked_by_its_own_list():
    ports = [("C1", "usb_c", "", HUNDRED), ("C2", "usb_c", "", (FIVE, TWENTY)), ("A", "usb_a")]
    done = checks(capability_list, [], [], ports)
    assert [(each["port"], each["outcome"]) for each in done] == [
        ("C1", CONSISTENT), ("C2", INCONSISTENT)]
