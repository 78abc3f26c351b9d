import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardowns.reading.plates.normalise import normalise


@pytest.mark.parametrize(
    ("text", "plain"),
    [("５Ｖ＝２Ａ", "5V=2A"), ("100–240V～", "100-240V~"), ("㎃ ㎐ Ⅵ", "mA Hz VI"),
     ("220 В~ 50 Гц 5 Вт 0,1 А", "220 V~ 50 Hz 5 W 0,1 A"), ("СЕ", "CE"), ("５\u200bV", "5V")],
)  # fmt: skip
def test_look_alikes_become_plain(text, plain):
    assert normalise(text).text == plain


def test_a_cyrillic_ve_is_a_volt_only_behind_a_number():
    assert normalise("5В Вx").text == "5V Bx"


def test_superscript_digits_do_not_join_a_number():
    assert normalise("5V²").text == "5V²"


def test_offsets_lead_back_over_what_was_dropped_and_merged():
    plain = normalise("\u200b5 Вт㎃")
    assert plain.original(0, 1) == (1, 2)  # 5
    assert plain.original(2, 3) == (3, 5)  # Вт as W
    assert plain.original(3, 5) == (5, 6)  # one character as mA


@given(st.text(max_size=50))
def test_offsets_ascend_and_stay_inside(text):
    plain = normalise(text)
    assert list(plain.starts) == sorted(plain.starts)
    assert all(s < e <= len(text) for s, e in zip(plain.starts, plain.ends, strict=True))
