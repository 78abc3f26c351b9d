"""What explains the difference: sentences made from numbers. All numbers here are invented."""
from dataclasses import replace

import pytest

from teardowns.presenting.compared_explanation import CAUTION, explanation
from teardowns.presenting.compared_facts import Facts, Known

NOT = Known(None, "not recorded")
A = Facts(
    letter="A", claimed=45.0, capability=15.0, low=13.0, high=17.0,
    verdict="not attainable on this evidence", risk="", against=("Bulk capacitor", -86.2),
    mass=Known(0.0462), ballast=NOT, working_mass=Known(0.0462), volume=Known(4.2e-5),
    bulk_capacitance=Known(1.5e-5), core_area=Known(3.1e-5), copper=Known(2e-7),
    primary_turns=Known(96.0))
B = replace(A, letter="B", claimed=20.0, capability=25.0, low=21.0, high=28.0, verdict="supported",
            against=None, working_mass=Known(0.0589), bulk_capacitance=Known(3.3e-5))
C = replace(B, letter="C", claimed=30.0, capability=33.0, low=30.0, high=36.0,
            working_mass=Known(0.0715), bulk_capacitance=Known(3.9e-5), core_area=Known(5.2e-5))


def said(*units):
    return " ".join(explanation(units))


def test_the_largest_ratio_of_claim_to_capability_comes_first():
    # 45/15 = 3, 30/33 = 0.91, 20/25 = 0.80
    first = explanation([B, A, C])[0]
    assert first.startswith("Unit A claims 3.0 times the capability") and "45\u202fW" in first
    assert first.endswith("unit B 0.80 times.")


def test_what_can_hurt_stands_before_all_that_is_said_of_power():
    first = explanation([A, replace(B, risk="serious"), replace(C, risk="high")])[0]
    assert first == ("The level of the gravest finding about safety is serious in B, high in C; "
                     "nothing recorded of A has one.")
    both = [replace(A, risk="low"), replace(B, risk="low")]
    assert explanation(both)[0].endswith("low in A and B.")
    assert "safety" not in explanation([A, B])[0]


def test_capabilities_that_are_told_apart_are_named_with_their_intervals():
    text = said(A, B, C)
    assert "highest in C (30.0 to 36.0\u202fW) and lowest in A (13.0 to 17.0\u202fW)" in text


def test_intervals_that_overlap_leave_it_undecided():
    text = said(A, replace(B, low=14.0, high=40.0))
    assert "which of these units delivers more, the evidence does not decide" in text
    assert "between units whose capabilities the evidence does not tell apart" in text


def test_a_fact_that_rises_with_the_capability_says_so():
    # 15 < 33 < 39 µF where 15 < 25 < 33 W
    assert ("Bulk capacitance is larger where the capability is higher: 15.0\u202fµF in A, "
            "33.0\u202fµF in B, 39.0\u202fµF in C.") in said(A, B, C)


def test_a_fact_that_falls_while_the_capability_rises_says_so():
    heavy = replace(A, working_mass=Known(0.2))
    assert "Mass without ballast is smaller where the capability is higher" in said(heavy, B)


def test_a_fact_that_goes_both_ways_does_not_follow():
    odd = replace(B, bulk_capacitance=Known(5e-6))          # A 15, B 5, C 39 µF
    assert "Bulk capacitance does not follow the capability" in said(A, odd, C)


def test_values_within_a_tenth_are_about_the_same():
    assert ("Core cross-section is about the same: 31.0\u202fmm² in A, 31.0\u202fmm² in B"
            in said(A, B))


def test_the_fact_that_differs_most_is_told_first():
    # Bulk 39/15 = 2.6, core 52/31 = 1.7, mass 71.5/46.2 = 1.5
    text = said(A, B, C)
    assert (text.index("Bulk capacitance") < text.index("Core cross-section")
            < text.index("Mass without ballast"))


def test_what_fewer_than_two_units_have_cannot_be_told():
    text = said(replace(A, copper=NOT), replace(B, copper=NOT))
    assert "Of copper of the output winding fewer than two of these units have a value" in text


def test_a_value_that_one_of_several_lacks_is_said_to_be_missing():
    assert "39.0\u202fµF in C (not known in 1 of them)" in said(
        replace(A, bulk_capacitance=NOT), B, C)


def test_ballast_is_told_as_a_mass_without_a_purpose():
    text = said(replace(A, ballast=Known(0.02)), B)
    assert "In A, 20.0\u202fg of the 46.2\u202fg are parts with no function." in text


def test_unknown_ballast_is_never_called_none():
    assert "no function" not in said(A, B)


def test_without_capabilities_it_cannot_tell():
    text = said(replace(A, capability=None, low=None, high=None),
                replace(B, capability=None, low=None, high=None))
    assert "the evidence cannot tell" in text and "claims" not in text


@pytest.mark.parametrize(("verdict", "words"), [
    ("evidence contradicts itself", "The evidence of A contradicts itself"),
    ("no evidence", "The evidence of A does not weigh on its claim"),
])
def test_nothing_is_concluded_from_evidence_that_does_not_carry(verdict, words):
    text = said(replace(A, verdict=verdict), B, C)
    assert f"{words}, so nothing is concluded from its capability." in text
    assert "Unit A claims" not in text and "in A" not in text


def test_what_weighs_most_is_named_only_for_claims_that_the_evidence_speaks_against():
    text = said(A, replace(B, against=("Mass per watt", -4.0)))
    assert "Most weighs against the claim in A “Bulk capacitor” (−86.2 decibans)." in text
    assert "Mass per watt" not in text


def test_it_speaks_of_the_units_examined_and_ends_with_its_limits():
    assert explanation([A, B])[-1] == CAUTION
    for word in ("fake", "cheat", "fails", "illegal", "because"):
        assert word not in said(A, B, C).lower()


def test_a_unit_without_a_capability_is_named():
    text = said(A, B, replace(C, capability=None, low=None, high=None, verdict="no evidence"))
    assert "The evidence gives C no capability." in text and "in C" not in text
