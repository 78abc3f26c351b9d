from teardowns.drawing.plate import plates

from .units import demo, document, drawn


def text_unit(text, source="plate", **more):
    return document(printed_texts=[{"key": "t", "source": source, "text": text, "how": "read_off"}],
                    **more)


def test_each_claim_read_from_the_plate_has_a_box_round_its_words():
    marks = drawn("09")["print-plate"].marks
    assert {mark.shows for mark in marks} == {f"claim/{row['key']}" for row in demo("09")["claims"]}


def test_claims_of_one_line_lie_side_by_side_in_their_order():
    boxes = {mark.label: mark.points for mark in drawn("09")["print-plate"].marks}
    five, nine = boxes["5V=3A"], boxes["9V=3A"]
    assert five[1][0] < nine[0][0] and five[0][1] == nine[0][1]
    assert boxes["Total 65W"][0][1] > five[1][1]


def test_the_words_of_a_claim_are_inked_inside_its_box():
    picture = drawn("07")["print-plate"]
    (left, top), (right, bottom) = picture.marks[0].points
    inside = picture.image.crop((int(left), int(top), int(right) + 1, int(bottom) + 1))
    assert min(inside.convert("L").get_flattened_data()) < 100 < 200 < max(
        inside.convert("L").get_flattened_data())


def test_a_plate_that_cannot_be_read_is_drawn_worn_and_says_so():
    worn = drawn("30")["print-plate"]
    assert "cannot be read" in worn.alt and not worn.marks


def test_a_plate_that_nobody_looked_at_has_no_picture():
    assert "print-plate" not in drawn("31") and "print-listing" in drawn("31")


def test_a_long_line_of_a_listing_is_folded_and_its_claim_found_in_the_second_line():
    text = "A charger that a listing praises at length, with 45 W of power."
    unit = text_unit(text, "listing", claims=[{
        "key": "c", "kind": "listing", "printed_text": "t", "text": "45 W", "power": 45.0,
        "start": text.index("45 W"), "end": text.index("45 W") + 4}])
    (picture,) = plates(unit)
    (mark,) = picture.marks
    middle = (170 + 1200 - 130) / 2
    assert mark.points[0][0] < 400 and mark.points[0][1] > middle - 10


def test_the_alternative_text_reads_the_plate():
    (picture,) = plates(text_unit("FIRST LINE\nOUTPUT 5V 2A"))
    assert picture.alt == "Rating plate. It reads: FIRST LINE / OUTPUT 5V 2A"
