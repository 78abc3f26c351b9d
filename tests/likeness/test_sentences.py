"""Reasons in words."""
import pytest

from teardowns.likeness.compare import Reason
from teardowns.likeness.sentences import in_short, of_plain, sentence, to_plain


def reason(slot, ours="A", theirs="A"):
    return Reason(slot, ours, theirs, 1.0, ("component/a",), ("component/b",))


@pytest.mark.parametrize(("one", "words"), [
    (reason("marking/primary_controller", "UWK-12", "UWK-12"),
     "Primary controller marked UWK-12 in both."),
    (reason("marking/primary_controller", "UWK-12", "PZ6318"),
     "Primary controller marked: UWK-12 here, PZ6318 there."),
    (reason("value/x_capacitor", "220nF", "330nF"),
     "Capacitor across the mains: 220nF here, 330nF there."),
    (reason("sign/fuse", "F1", "F1"), "Fuse, its number on the board: F1 in both."),
    (reason("size/primary_turns", "117 ± 5", "98 ± 4"),
     "Primary turns: 117 ± 5 here, 98 ± 4 there."),
    (reason("winding_order", "primary, secondary", "primary, secondary"),
     "Windings from the core outward: primary, secondary in both."),
    (reason("photo/component_side", "photo a", "photo b"),
     "Pictures of the component side look alike: photo a here, photo b there."),
])
def test_a_reason_says_what_both_have(one, words):
    assert sentence(one) == words


def test_the_sides_can_be_named():
    one = reason("size/primary_turns", "117", "98")
    assert sentence(one, "in unit 3", "in unit 12") == ("Primary turns: 117 in unit 3, 98 in unit "
                                                        "12.")


def test_in_short_the_weightiest_three_are_named_each_once():
    found = [reason("marking/core"), reason("marking/core"), reason("size/primary_turns"),
             reason("ports"), reason("winding_order")]
    assert in_short(found) == "core, primary turns and ports"
    assert in_short([]) == "" and in_short(found[:1]) == "core"


def test_a_reason_comes_back_from_json_as_it_was():
    one = reason("marking/core")
    assert of_plain(to_plain(one)) == one
