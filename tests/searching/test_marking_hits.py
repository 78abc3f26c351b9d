import pytest

from teardowns.searching.marking_hits import LINE, excerpt
from teardowns.searching.question import read_question


def marked(body, text):
    return [[letters for letters, asked in line if asked]
            for line in excerpt(body, read_question(text))]


@pytest.mark.parametrize(("text", "found"), [
    ("zhb1", "ZHB-1"), ("ZHBI", "ZHB-1"), ("2hb", "ZHB"), ("controller", "controller"),
    ("contr", "contr"), ("hb1", "HB-1"),
])
def test_a_word_a_beginning_a_piece_and_a_misreading_are_marked_as_printed(text, found):
    assert marked("primary controller: ZHB-1", text) == [[found]]


def test_letters_inside_another_word_are_not_marked():
    assert marked("primary controller", "roll") == []


def test_lines_with_more_of_the_question_come_first():
    assert marked("hub\nplain\nhub 65", "hub 65") == [["hub", "65"], ["hub"]]


def test_a_long_line_is_cut_around_what_was_found():
    line, = excerpt("x " * 500 + "hub" + " y" * 500, read_question("hub"))
    assert ("hub", True) in line
    assert line[0] == line[-1] == ("…", False)
    assert sum(len(letters) for letters, _ in line) <= LINE + 2


def test_the_letters_of_a_line_are_all_there():
    line, = excerpt("UMBERLISK HUB 65", read_question("hub"))
    assert "".join(letters for letters, _ in line) == "UMBERLISK HUB 65"


def test_no_question_marks_nothing():
    assert excerpt("hub", read_question("…")) == []
