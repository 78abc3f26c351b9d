from teardowns.searching.plate_names import MOST, names_on


def test_neighbouring_pieces_of_a_line_are_names():
    # D folds to 0, B to 8, I to 1, L to 1, S to 5, Q to 0.
    assert set(names_on("UMBERLISK HUB 65")) == {
        "um8er115k", "um8er115khu8", "um8er115khu865", "hu8", "hu865", "65"}


def test_names_do_not_go_over_the_end_of_a_line():
    assert "hu865" not in names_on("HUB\n65")


def test_what_was_read_as_a_name_comes_first():
    assert names_on("A VQ 45", read=["VQ 45"])[0] == "v045"


def test_one_letter_is_no_name_nor_are_two_without_a_digit():
    assert names_on("A") == names_on("e") == names_on("⧈") == []
    assert names_on("ac") == []
    assert names_on("a5") == ["a5"]


def test_there_is_an_end_to_names():
    assert len(names_on(" ".join(f"word{n}" for n in range(2000)))) == MOST
