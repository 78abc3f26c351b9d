"""Names of cores as catalogues and transformers print them; families of the IEC 63093 series."""
import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardowns.reading.markings.core import FAMILIES, CoreName, read_core


@pytest.mark.parametrize(("text", "family", "sizes"), [
    ("EE16", "EE", (16.0,)), ("EF 12.6", "EF", (12.6,)), ("EF12,6", "EF", (12.6,)),
    ("EFD15/8/5", "EFD", (15.0, 8.0, 5.0)), ("PQ 26/20", "PQ", (26.0, 20.0)),
    ("E 13/7/4", "E", (13.0, 7.0, 4.0)), ("EEL-16", "EEL", (16.0,)), ("RM 6", "RM", (6.0,)),
    ("ER25.5", "ER", (25.5,)), ("EER28", "EER", (28.0,)), ("epc 13", "EPC", (13.0,)),
    ("E16x8x5", "E", (16.0, 8.0, 5.0)), ("EI 12.5", "EI", (12.5,)), ("PQ2620", None, None),
])
def test_family_and_sizes_are_read_as_printed(text, family, sizes):
    assert read_core(text) == (CoreName(family, sizes) if family else None)


@pytest.mark.parametrize("text", ["EE16 core", "core EE16", "T1 EE16", "PC40 EE16", "PC40EE16-Z",
                                  "EE16-1234"])
def test_words_and_a_material_grade_beside_the_name_do_not_matter(text):
    assert read_core(text) == CoreName("EE", (16.0,))


@pytest.mark.parametrize("text", ["", "T1", "ferrite", "EE", "16", "EE16 or EF16", "TREE16",
                                  "EE 0", "EE999", "E16 E20"])
def test_a_marking_that_names_no_core_or_two_is_not_guessed(text):
    assert read_core(text) is None


def test_the_same_name_twice_is_one_name():
    assert read_core("EE16 / EE 16") == CoreName("EE", (16.0,))


@given(family=st.sampled_from(FAMILIES),
       sizes=st.lists(st.integers(1, 99).map(float), min_size=1, max_size=3).map(tuple))
def test_a_printed_name_is_read_back(family, sizes):
    assert read_core(str(CoreName(family, sizes))) == CoreName(family, sizes)


@given(text=st.text(max_size=200))
def test_no_text_upsets_it(text):
    name = read_core(text)
    assert name is None or name.sizes
