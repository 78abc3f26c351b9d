"""Formulas as data, and as words for who cannot see them."""
from teardowns.engine.mathml import EQ, equation, frac, num, power, sym
from teardowns.typesetting.formulas import formula_of, in_words
from teardowns.typesetting.html_tree import tree_of


def test_a_fraction_with_a_power_and_an_index_is_read_in_order():
    markup = equation(sym("P"), EQ, frac(power(sym("V", "min"), 2), num("R")))
    tree = formula_of(tree_of(markup).find("math"))
    assert in_words(tree) == "P = (V min to the power of 2) / (R)"


def test_a_name_of_words_is_set_upright():
    node = formula_of(tree_of('<math><msub><mi>V</mi><mi mathvariant="normal">min</mi></msub>'
                              "</math>").find("math"))
    assert [child["k"] for child in node["c"][0]["c"]] == ["i", "t"]
