from teardowns.browsing.facets import Bands, Facet, each_of, if_any, one_of

POWER = Bands((10.0, 20.0), ("low", "middle", "high"))


def test_a_band_holds_its_upper_end_and_not_its_lower():
    assert [POWER(value)[0] for value in (0.0, 10.0, 10.01, 20.0, 20.01)] == [
        "low", "low", "middle", "middle", "high"]


def test_what_is_not_known_lies_in_no_band():
    assert POWER(None) == ("none",)


def test_empty_texts_and_lists_are_none_or_nothing():
    assert (one_of(""), each_of([]), if_any("")) == (("none",), ("none",), ())
    assert (one_of("a"), each_of(["a", "b"]), if_any("a")) == (("a",), ("a", "b"), ("a",))


def test_a_code_without_a_label_is_its_own():
    facet = Facet("word", "Word", "word", one_of, {"yes": "Yes"})
    assert (facet.label_of("yes"), facet.label_of("no")) == ("Yes", "no")
