from teardowns.searching.tiers import (
    apart_tiers,
    misread_tiers,
    other_tiers,
    pieces_inside,
    unit_tiers,
)
from teardowns.searching.wanted import AllOf, AnyOf, Token


def test_whole_names_are_asked_for_before_words():
    # Q folds to 0, S to 5.
    first, second, third, fourth, *_ = unit_tiers("VQ-4S")
    assert [first, second, third, fourth] == [
        Token("umvq4s"), Token("unv045"), Token("uxvq4s"), Token("uyv045")]


def test_a_word_with_a_sign_in_it_is_asked_for_whole_or_by_its_pieces():
    title = unit_tiers("wall-desk")[5]
    assert title == AllOf((AnyOf((
        Token("utwalldesk", True), AllOf((Token("utwall"), Token("utdesk", True))))),))


def test_a_marking_is_asked_for_whole_and_by_its_pieces_at_last():
    assert unit_tiers("vq-45")[5] == AllOf((Token("utvq45", True),))
    assert apart_tiers("vq-45") == [AllOf((AnyOf((
        Token("urvq45", True), AllOf((Token("urvq"), Token("ur45", True))))),))]


def test_a_short_word_is_not_taken_for_a_misread_one_unless_nothing_else_is_found():
    assert unit_tiers("b5")[-1] == AllOf((Token("urb5", True),))
    assert misread_tiers("b5") == [
        AllOf((Token("urb5", True),)),
        AllOf((AnyOf((Token("ur85", True), Token("ul85", True))),))]


def test_a_longer_word_may_have_been_misread():
    # B folds to 8, O and D to 0.
    assert misread_tiers("board")[0] == AllOf((AnyOf((
        Token("ur80ar0", True), Token("ul80ar0", True))),))


def test_a_piece_is_looked_for_inside_markings_from_three_letters_on():
    assert pieces_inside("hb") == []
    assert pieces_inside("hb1") == [(["h81"], None)]


def test_beside_other_words_only_what_has_a_digit_is_a_piece_of_a_marking():
    whole, apart = pieces_inside("hub 6318")
    assert whole == (["hu86318"], None)
    assert apart == (["6318"], AllOf((AnyOf((Token("urhu8"), Token("ulhu8"))),)))


def test_signs_alone_ask_for_nothing():
    for tiers in (unit_tiers, other_tiers, misread_tiers, pieces_inside):
        assert tiers("⎓ (((") == []
