from dataclasses import asdict

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from teardowns.reading.plates import PlateClaim, PlateError, read_plate
from teardowns.reading.plates.claims import KINDS

from .plates_table import PLATES

PRINTED_WHERE = ("text", "start", "end")


def facts(claim: PlateClaim) -> dict:
    """The fields of a claim that say anything, without its place."""
    blank = asdict(PlateClaim("", "", 0, 0))
    said = {name: value for name, value in asdict(claim).items() if value != blank[name]}
    return {name: value for name, value in said.items() if name not in PRINTED_WHERE}


def expected(fields: dict) -> dict:
    return {name: value for name, value in fields.items() if value not in ("", None)}


@pytest.mark.parametrize(
    ("text", "claims", "unread", "questions"),
    [pytest.param(*row[1:], id=row[0]) for row in PLATES],
)
def test_a_plate_is_read_as_a_careful_person_reads_it(text, claims, unread, questions):
    reading = read_plate(text)
    assert [facts(claim) for claim in reading.claims] == [expected(claim) for claim in claims]
    assert [span.text for span in reading.unread] == unread
    assert len(reading.questions) == questions, reading.questions


def test_the_table_holds_at_least_sixty_plates():
    assert len({row[1] for row in PLATES}) >= 60


def test_a_claim_keeps_the_words_behind_it():
    text = "Model: UX-20C\nOutput: 5V⎓3A (15W max)"
    spans = {claim.kind: claim.text for claim in read_plate(text).claims}
    assert spans == {"model": "Model: UX-20C", "output": "5V⎓3A (15W"}


def test_offsets_hold_behind_characters_that_change_length():
    text = "\u200b㎐ 🗑 Вт ５Ｖ＝２Ａ"
    claim = next(claim for claim in read_plate(text).claims if claim.kind == "output")
    assert text[claim.start : claim.end] == "５Ｖ＝２Ａ"


def test_the_same_mark_twice_is_one_claim():
    assert len(read_plate("CE CE").claims) == 1


def test_the_same_feature_twice_is_one_claim():
    assert len(read_plate("OVP, over-voltage protection").claims) == 1


def test_the_same_rating_twice_is_two_claims():
    assert len(read_plate("Output: 5V⎓2A 5V⎓2A").claims) == 2


def test_a_question_quotes_the_words_it_is_about():
    assert read_plate("Output 5,9V 2A").questions[0].startswith("“5,9V”")


def test_text_that_is_too_long_is_refused_with_the_remedy():
    with pytest.raises(PlateError, match="separately"):
        read_plate("5V " * 1400)


def test_what_is_no_text_is_refused():
    with pytest.raises(PlateError, match="text"):
        read_plate(None)


WORDS = (
    "5V 9V 100 240 3A 0,5 1,000 ⎓ ~ = --- - / , ; : ( ) + × 2x W 65W Max Hz 50/60Hz USB-C1 A: C+A "
    "OVP SCP protection Socket "
    "Total Output Input PD 3.0 PPS QC Class II 2 VI CE Model Maker: up to GaN O0 l0 回 ５ Ⅴ В т"
)
PLATE_PIECES = st.sampled_from([*WORDS.split(), " ", "\n", "", "\u200b", "\ufdfa"])


def check_reading(text: str) -> None:
    """What holds for any text: spans are pieces of it and kinds are known."""
    reading = read_plate(text)
    for span in (*reading.claims, *reading.unread):
        assert 0 <= span.start < span.end <= len(text)
        assert text[span.start : span.end] == span.text
    assert {claim.kind for claim in reading.claims} <= set(KINDS)


@given(st.text(max_size=300))
def test_any_text_is_read_without_an_error(text):
    check_reading(text)


@settings(max_examples=300)
@given(st.lists(PLATE_PIECES, max_size=40).map("".join))
def test_any_heap_of_plate_pieces_is_read_without_an_error(text):
    check_reading(text)


@given(st.lists(PLATE_PIECES, max_size=25).map(" ".join))
def test_no_printed_number_is_lost_without_a_word(text):
    """Digits of quantities lie in a claim or in an unread piece; 0, 1, 2, 5 also name ports."""
    reading = read_plate(text)
    seen = {at for span in (*reading.claims, *reading.unread) for at in range(span.start, span.end)}
    lost = [at for at, character in enumerate(text) if character in "3469" and at not in seen]
    assert not lost, text[max(lost[0] - 9, 0) : lost[0] + 9] if lost else ""
