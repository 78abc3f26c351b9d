import pytest

from teardowns.reading.plates import read_plate


def questions(text: str) -> tuple[str, ...]:
    return read_plate(text).questions


def test_two_ratings_in_lines_of_their_own_are_asked_about_in_their_own_words():
    (question,) = questions("16A 250V~\nUSB input 220-240V~ 50Hz 0.2A")
    assert question.startswith("“16A 250V~” and “220-240V~ 50Hz 0.2A”: two input ratings")


def test_a_label_parts_two_ratings_of_one_line():
    assert len(questions("16A 250V~ USB input: 220-240V~ 0.2A")) == 1


def test_the_word_outlet_parts_two_ratings_of_one_line():
    assert len(questions("16A 250V~, 220-240V~ 0.2A, outlet with USB")) == 1


def test_each_further_rating_that_differs_is_asked_about():
    text = "Input 230V~ 50Hz\nSocket 16A 230V~\nUSB input 230V~ 0.2A\nInput 250V~"
    assert len(questions(text)) == 2  # 0.2 A is not 16 A, 250 V is not 230 V


@pytest.mark.parametrize(
    "text",
    [
        "115V/60Hz 230V/50Hz",  # one rating for two mains
        "Outlet of plastic. Input 100-120/200-240V~ 1.5/0.8A",  # one rating with two ranges
        "Input: 230V~ 50Hz 0.2A\nEingang: 230V~ 50Hz 0,2A",
        "Input 115V/60Hz 230V/50Hz\nEingang 115V/60Hz 230V/50Hz",
        "Input: 100-240V~ 50/60Hz 0.5A\nWorks at 100-240V",  # the second says less, nothing else
    ],
)
def test_one_rating_is_not_asked_about(text):
    assert questions(text) == ()


def test_a_lone_rating_behind_the_word_outlet_is_asked_about():
    (question,) = questions("Outlet 16A 250V~\nUSB 5V⎓2.4A")
    assert question.startswith("“16A 250V~”: is this the charger's own input")


@pytest.mark.parametrize(
    "text",
    ["Fits any socket, input 100-240V~", "Input 100-240V~ at any outlet", "USB outlet 5V⎓2.4A",
     "For a wall outlet\nAC 100-240V"],
)  # fmt: skip
def test_the_word_outlet_elsewhere_asks_nothing(text):
    assert questions(text) == ()
