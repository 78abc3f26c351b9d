from teardowns.reading.plates import read_plate
from teardowns.searching.claim_words import claim_words, in_print, of_claim


def words(text):
    return [word for claim in read_plate(text).claims for word in of_claim(claim)]


def test_an_output_is_its_volts_with_its_amperes_and_its_watts():
    assert words("OUTPUT: 20V 3.25A 65W") == ["20v3.25a", "65w"]


def test_an_input_says_nothing_for_nearly_all_plates_have_the_same():
    assert words("INPUT: 100-240V~ 50/60Hz 0.5A") == []


def test_the_same_rating_of_a_document_and_of_a_plate_is_the_same_word():
    assert claim_words("output", 5.0, 5.0, 2.4, None) == words("OUTPUT 5V 2.4A") == ["5v2.4a"]


def test_a_rating_that_lacks_its_amperes_says_nothing():
    assert claim_words("output", 5.0, 5.0, None, None) == []
    assert claim_words("mark", None, None, None, None) == []


def test_claim_words_read_as_people_write_them():
    assert list(map(in_print, ("5v2.4a", "3.3to11v5a", "65w"))) == [
        "5 V 2.4 A", "3.3–11 V 5 A", "65 W"]
