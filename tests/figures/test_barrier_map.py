"""The barrier map: measured beside required, and what nobody measured."""
import pytest

from teardowns.figures.barrier_map import Span, barrier_map

from .drawing import of_class, parsed, share, words


def span(value, low, high, grade, u=0.1, **changed):
    fields = {
        "place": "Slot", "detail": "clearance, caliper", "evidence": "#row", "grade": grade,
        "value": value, "u": u, "low": low, "high": high, "measured": f"{value} mm",
        "required": f"{high} mm", "remark": "", "working": "/working/"} | changed
    return Span(**fields)


def drawn(*spans):
    return parsed(barrier_map("Caption", [("Mains side to output", spans)]))


def test_the_requirement_stands_at_its_place_on_the_scale_of_the_distances():
    tree = drawn(span(4.0, 3.0, 3.0, "meets"))
    required, = of_class(tree, "req")
    distance, = of_class(tree, "dim")
    assert share(required) / share(distance, "x2") == pytest.approx(3 / 4, abs=1e-3)


def test_assumptions_that_leave_a_choice_are_a_band_from_lenient_to_demanding():
    tree = drawn(span(5.2, 5.0, 5.8, "cannot tell", u=0.5))
    band, = of_class(tree, "req-b")
    demanding, lenient = of_class(tree, "req")
    assert share(band, "x") == share(lenient) and lenient.get("stroke-dasharray")
    assert share(band, "x") + share(band, "width") == pytest.approx(share(demanding), abs=0.02)


def test_one_requirement_has_no_band():
    assert not of_class(drawn(span(4.0, 3.0, 3.0, "meets")), "req-b")


def test_the_missing_distance_is_hatched_up_to_the_lenient_end():
    missing, = of_class(drawn(span(2.0, 3.0, 3.4, "falls short")), "miss")
    lenient = of_class(drawn(span(2.0, 3.0, 3.4, "falls short")), "req")[1]
    assert share(missing, "x") + share(missing, "width") == pytest.approx(share(lenient), abs=0.02)


@pytest.mark.parametrize("grade", ["meets", "cannot tell"])
def test_nothing_is_called_missing_that_does_not_fall_short(grade):
    assert not of_class(drawn(span(2.95, 3.0, 3.0, grade)), "miss")


def test_what_nobody_measured_is_a_dotted_line_beside_its_requirement():
    tree = drawn(span(None, 3.0, 3.0, "cannot tell", measured="not looked at"))
    assert of_class(tree, "unm") and of_class(tree, "req") and not of_class(tree, "dim")
    assert "not looked at" in words(tree)


def test_a_requirement_that_is_not_known_is_not_drawn():
    tree = drawn(span(2.0, None, None, "cannot tell", required=""))
    assert not of_class(tree, "req") and "required " not in words(tree)


def test_one_roomy_gap_is_cut_so_that_the_others_keep_their_width():
    tree = drawn(span(40.0, 3.0, 3.0, "meets"), span(2.0, 3.0, 3.0, "falls short"))
    assert of_class(tree, "cut") and "drawn cut" in words(tree)
    assert share(of_class(tree, "req")[0]) > 30


def test_uncertainty_spans_the_reading():
    doubt, = of_class(drawn(span(4.0, 3.0, 3.0, "meets", u=0.5)), "unc")
    distance, = of_class(drawn(span(4.0, 3.0, 3.0, "meets", u=0.5)), "dim")
    middle = share(doubt, "x") + share(doubt, "width") / 2
    assert middle == pytest.approx(share(distance, "x2"), abs=0.02)


def test_a_screen_reader_gets_the_numbers_and_the_grade_of_each_row():
    tree = drawn(span(2.0, 3.0, 3.4, "falls short", required="3 to 3.4 mm"))
    title = next(node for node in tree.iter("title"))
    assert title.text == ("Slot, clearance, caliper: measured 2.0 mm, required 3 to 3.4 mm, "
                          "falls short")


def test_the_reading_opens_its_working_and_the_place_its_evidence():
    assert [link.get("href") for link in drawn(span(4.0, 3.0, 3.0, "meets")).iter("a")] == [
        "#row", "/working/"]


def test_names_cannot_inject_markup():
    assert "<b>x</b>" in words(drawn(span(4.0, 3.0, 3.0, "meets", place="<b>x</b>")))


def test_each_barrier_heads_its_paths():
    tree = parsed(barrier_map("Caption", [
        ("Mains side to output", [span(4.0, 3.0, 3.0, "meets")]),
        ("Line to neutral", [span(1.6, 1.5, 1.5, "cannot tell")])]))
    heads = [node.text for node in tree.iter("th") if node.get("scope") == "rowgroup"]
    assert heads == ["Mains side to output", "Line to neutral"]
