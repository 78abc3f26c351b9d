from teardowns.forms.plate_reading import claim_rows, shown_reading, without_known

PLATE = "OUTPUT: 5V 3A / 9V 2.22A\nqqz"


def test_the_pieces_are_the_whole_text_in_order():
    reading = shown_reading(PLATE)
    assert "".join(letters for _, letters in reading.pieces) == PLATE
    assert ("unread", "qqz") in reading.pieces


def test_each_claim_becomes_a_row_with_its_place_in_the_text():
    rows = claim_rows(PLATE, "plate")
    assert [(row["voltage"], row["current"]) for row in rows] == [("5 V", "3 A"), ("9 V", "2.22 A")]
    assert all(PLATE[row["start"]:row["end"]] == row["text"] for row in rows)
    assert {row["power"] for row in rows} == {""}       # no watts are printed, so none are claimed


def test_reading_again_adds_nothing_that_the_table_holds():
    rows = claim_rows(PLATE, "plate")
    assert without_known(rows, rows[:1]) == rows[1:]


def test_a_text_too_long_to_be_read_says_so_and_gives_no_rows():
    assert "characters long" in shown_reading("5V " * 3000).error
    assert claim_rows("5V " * 3000, "plate") == []


def test_nothing_is_read_from_nothing():
    assert shown_reading(" \n ") is None
