import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardowns.reading.markings import KINDS, Decoding, MarkingError, decode_marking


def test_the_kind_decides_before_the_text():
    assert decode_marking("capacitor", "104K").value == 100e-9
    assert decode_marking("resistor", "104K").value == 104e3  # RKM: K is the decimal point
    assert decode_marking("inductor", "104K").value == 100e-3


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_every_decoding_keeps_kind_and_verbatim_text(kind):
    decoding = decode_marking(kind, " 104K ")
    assert (decoding.kind, decoding.text) == (kind, " 104K ")


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_nonsense_is_unread_and_has_no_value(kind):
    decoding = decode_marking(kind, "Ж?§")
    assert decoding.value is None
    assert decoding.unread


def test_an_unknown_kind_names_the_kinds():
    with pytest.raises(MarkingError, match="resistor"):
        decode_marking("diode", "SB340")


def test_an_empty_marking_names_the_remedy():
    with pytest.raises(MarkingError, match="not readable"):
        decode_marking("resistor", "  ")


def test_a_marking_longer_than_a_part_is_refused():
    with pytest.raises(MarkingError, match="200 characters"):
        decode_marking("resistor", "1" * 201)


ALPHABET = st.sampled_from("0123456789.,KMRnpuµFVAXYTLJ~°C/ -red")


@given(st.sampled_from(sorted(KINDS)), st.text(max_size=60) | st.text(ALPHABET, max_size=30))
def test_any_text_decodes_or_is_refused_in_words(kind, text):
    try:
        decoding = decode_marking(kind, text)
    except MarkingError as error:
        assert error.message
    else:
        assert isinstance(decoding, Decoding)
        assert decoding.value is None or decoding.value >= 0
