"""An English text in German: whole, by its pattern, sentence by sentence, or as a list."""
import pytest

from core.words.said import Catalogue, said

WORDS = {
    "Not recorded.": "Nicht erfasst.",
    "It meets the figure.": "Das erfüllt den Wert.",
    "So many layers count. This is a count.": "So viele Lagen zählen. Das ist eine Zählung.",
    "Clearance": "Luftstrecke",
    "DC-DC converter": "DC-DC-Wandler",
    "fuse": "Sicherung",
    "turns": "Windungen",
    "rev.": "Rev.",
    "Controller supply, lowest": "Versorgung, niedrigste",
    "primary switch": "primärer Schalttransistor",
    "bias regulator or second tap": "Regler oder zweite Anzapfung",
    " and ": " und ",
    "In the unit examined, the {named} comes to {reading}{figure}.":
        "Am untersuchten Exemplar: {named} {reading}{figure}.",
    "; the figure is {p}": "; Wert: {p}",
    "{p} to {p_2}, by what is assumed": "{p} bis {p_2}, je nach Annahme",
    "{label} not found": "{label}: nicht gefunden",
    "the {label}": "{label}",
    "{said} All faces were photographed.": "{said} Alle Flächen wurden fotografiert.",
    "Not read: {join}.": "Nicht gelesen: {join}.",
    "“{name}” is gone.": "„{name!s}“ ist weg.",
}


@pytest.fixture
def catalogue():
    return Catalogue("de", WORDS)


def missed_by(catalogue, text):
    missed = []
    catalogue.missed = missed.append
    return catalogue.say(text), missed


@pytest.mark.parametrize(("text", "german"), [
    ("Not recorded.", "Nicht erfasst."),
    (" Not recorded.\n", " Nicht erfasst. "),
    ("6.2 mm", "6,2 mm"), ("X2", "X2"), ("", ""), ("—", "—"),
    # The case of the first letter, or of all, is no other text.
    ("clearance", "Luftstrecke"), ("Fuse", "Sicherung"), ("dc-dc converter", "DC-DC-Wandler"),
    # Two sentences with two patterns; the place of the first does not take in the second.
    ("In the unit examined, the clearance comes to 2.5 mm; the figure is 3 mm to 4 mm, by what is "
     "assumed. It meets the figure.",
     "Am untersuchten Exemplar: Luftstrecke 2,5 mm; Wert: 3 mm bis 4 mm, je nach Annahme. "
     "Das erfüllt den Wert."),
    # A text of two sentences among others is found as one.
    ("Not recorded. So many layers count. This is a count.",
     "Nicht erfasst. So viele Lagen zählen. Das ist eine Zählung."),
    # A place takes in a whole sentence where nothing else fits.
    ("Not read: fuse. All faces were photographed.",
     "Nicht gelesen: Sicherung. Alle Flächen wurden fotografiert."),
    # Lists, also of what has a joint inside.
    ("fuse and clearance", "Sicherung und Luftstrecke"),
    ("2.5 A, bias regulator or second tap not found, fuse",
     "2,5 A, Regler oder zweite Anzapfung: nicht gefunden, Sicherung"),
    ("Clearance: fuse, primary switch.", "Luftstrecke: Sicherung, primärer Schalttransistor."),
    # A word with its value, or with its place on the board.
    ("primary switch 102 °C", "primärer Schalttransistor 102 °C"), ("fuse F1", "Sicherung F1"),
    # What a person calls a place stays as it is.
    ("the clearance (under the opto)", "Luftstrecke (under the opto)"),
    ("the clearance (fuse)", "Luftstrecke (Sicherung)"),
    # A name that has a joint inside is one piece of a list.
    ("controller supply, lowest 8 V, fuse", "Versorgung, niedrigste 8 V, Sicherung"),
    # What stands in quotation marks is one piece, also where it looks like several.
    ("“fuse; clearance: 2 turns” is gone.", "„fuse; clearance: 2 turns“ ist weg."),
    ("“fuse (2 turns” is gone.", "„fuse (2 turns“ ist weg."),
    # A number before words, and a short sentence that ends in one.
    ("52 turns", "52 Windungen"), ("4 of 5 turns", "4 von 5 Windungen"),
    ("1. fuse", "1. Sicherung"),
    ("fuse, rev. 2, clearance 3", "Sicherung, Rev. 2, Luftstrecke 3"),
    # Lines of a paragraph are one text, paragraphs are several.
    ("It meets\n    the figure.\n\nNot recorded.", "Das erfüllt den Wert.\n\nNicht erfasst."),
])
def test_it_is_said_in_german_and_nothing_missed(catalogue, text, german):
    assert missed_by(catalogue, text) == (german, [])


def test_what_is_not_known_stays_english_with_its_numbers_and_is_told(catalogue):
    assert missed_by(catalogue, "A 4.7 µF part.") == ("A 4,7 µF part.", ["A 4.7 µF part."])


def test_it_is_told_each_time(catalogue):
    for _ in range(2):
        assert missed_by(catalogue, "Nobody knows.")[1] == ["Nobody knows."]


def test_of_a_list_that_is_known_in_part_nothing_is_said(catalogue):
    text = "fuse and a thing of theirs"
    assert missed_by(catalogue, text) == (text, [text])


def test_a_sentence_beside_an_unknown_one_is_said_all_the_same(catalogue):
    assert missed_by(catalogue, "It meets the figure. Nobody knows why.") == (
        "Das erfüllt den Wert. Nobody knows why.", ["Nobody knows why."])


def test_what_nobody_may_say_is_neither_said_nor_missed(catalogue):
    assert missed_by(catalogue, "“fuse” is gone.") == ("„fuse“ ist weg.", [])


def test_a_short_pattern_takes_no_sentence_that_it_does_not_know(catalogue):
    """"the {label}" would leave out the article and say nothing else."""
    text = "The answer of the maker"
    assert missed_by(catalogue, text) == (text, [text])


def test_english_is_returned_as_it_came():
    text = "Not recorded: 13.1 W."
    assert said(text, "en") is text and said(text) is text and said(text, "en-gb") is text


def test_a_german_of_any_country_reads_the_same(settings):
    assert said("6.2 mm", "de-at") == said("6.2 mm", "de") == "6,2 mm"
