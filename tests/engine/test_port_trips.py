"""A hub of five ports of 12 W and 60 W together, of which one lets go at 13 W: five times 2.4 A."""
import pytest

from teardowns.engine import rulebook
from teardowns.engine.pipeline import assess
from teardowns.engine.port_trips import ALL_PORTS
from teardowns.engine.verdicts import WORDS
from tests.engine.make import NAN, WIDE, claim_table, evidence_table, judge, port_table

EACH, ALL = (5.0, 2.4, NAN, "usb_a"), (5.0, 12.0, NAN, "usb_a", "total")
HUB = [(f"USB {number}", "usb_a") for number in range(5)]


def verdicts(lost, claims=(EACH, ALL), ports=HUB, code="failed_power", out=5.0, port=-1):
    rows = [*WIDE, (code, lost, 0.01 * lost, 230.0, out, port)]
    judged = judge(rows, list(claims), ports=ports).judged
    return [WORDS[word] for word in judged.verdict.tolist()], judged.plausibility


@pytest.mark.parametrize("ports", [HUB, []])
def test_the_limit_of_one_output_says_nothing_of_all_together(ports):
    words, p = verdicts(13.0, ports=ports)
    assert words[1] == "no evidence" and p[1] == pytest.approx(0.5)


def test_less_than_one_output_should_give_is_a_word_against_it():
    # 6 W are half of what one port is printed to give.
    assert verdicts(6.0)[1].max() < 0.03


def test_more_than_one_output_should_give_was_drawn_from_several():
    # 1.5 times 12 W are 18 W: 30 W come from two ports at least, and 60 W are printed.
    assert verdicts(30.0)[0][1] == "implausible"


@pytest.mark.parametrize("ports, claims", [(HUB, (EACH, ALL)), (HUB[:2], ((5.0, 3.1, NAN),))])
def test_an_overcurrent_point_of_no_named_port_says_nothing_of_all_together(ports, claims):
    words, _ = verdicts(2.6, claims, ports, "overcurrent_point")
    assert words[-1] == "no evidence"


@pytest.mark.parametrize("held, word", [(12.0, "possible"), (14.9, "supported")])
def test_what_may_have_been_lost_by_a_larger_output_leaves_it_possible_at_most(held, word):
    # 14 W are 1.17 times the 12 W of one output and 0.93 of the 15 W of the other.
    claims = (EACH, (5.0, 3.0, NAN, "usb_c"), (5.0, 5.4, NAN, "usb_c", "total"))
    rows = [*WIDE, ("sustained_power", held, 0.01, 100.0, 5.0),
            ("failed_power", 14.0, 0.14, 230.0, 5.0)]
    judged = judge(rows, list(claims), ports=[("A", "usb_a"), ("C", "usb_c")]).judged
    assert WORDS[judged.verdict[1]] == word and judged.plausibility[1] > 0.9


def test_what_all_ports_lost_together_is_a_word_against_their_total():
    # The 13 W that one port may let go at by itself; nobody who loaded all of them saw that.
    words, p = verdicts(13.0, port=ALL_PORTS)
    assert words[1] == "implausible" and p[1] < 0.05
    assert verdicts(13.0, port=ALL_PORTS, code="sustained_power")[0] == verdicts(
        13.0, code="sustained_power")[0]


def test_a_named_port_answers_for_itself():
    claims = ((*EACH, "output", 0), ALL)
    assert verdicts(6.0, claims, port=0)[1][0] < 0.03
    assert verdicts(6.0, claims, port=0)[1][1] == pytest.approx(0.5)


def test_one_port_has_no_limit_of_its_own():
    # 15 W at 5 V beside 20 W at 9 V: what was lost at 15 W and 9 V is a word against 20 W.
    claims = ((5.0, 3.0, NAN, "usb_c"), (9.0, 2.22, NAN, "usb_c"))
    assert verdicts(15.0, claims, HUB[:1], out=9.0)[1][1] < 0.1
    two = verdicts(15.0, claims, HUB[:2], out=9.0)[1]       # the voltage is not the 5 V claim's
    assert two[1] < 0.1


def test_a_unit_alone_gives_the_bits_of_many():
    lost = [*WIDE, ("failed_power", 13.0, 0.13, 230.0, 5.0)]
    held = [*WIDE, ("sustained_power", 14.0, 0.1, 100.0, 20.0), ("failed_power", 14.9, 0.1, 230.0)]
    rows, claims, ports = [lost, held, lost], [(EACH, ALL), ((20.0, 3.0, NAN),), (EACH,)], [
        HUB, [], HUB]
    many = assess(evidence_table(*rows), claim_table(*claims), rulebook.load(),
                  port_table(*ports)).judged.plausibility.tolist()
    alone = [p for one in zip(rows, claims, ports, strict=True)
             for p in judge(*one[:2], ports=one[2]).judged.plausibility.tolist()]
    assert many == alone
