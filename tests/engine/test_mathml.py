from xml.etree import ElementTree

from teardowns.engine.mathml import (
    EQ,
    LEQ,
    MINUS,
    PLUS,
    TIMES,
    equation,
    fn,
    frac,
    inline,
    num,
    op,
    paren,
    power,
    row,
    sym,
    word,
)


def test_a_symbol_has_an_upright_subscript():
    found = ElementTree.fromstring(inline(sym("V", "min")))
    assert [child.tag for child in found.iter()] == ["math", "msub", "mi", "mi"]
    assert "".join(found.itertext()) == "Vmin"


def test_an_equation_is_a_block_of_mathml():
    formula = equation(sym("P"), EQ, frac(power(sym("V"), 2), fn("sin", num(2), sym("θ"))))
    found = ElementTree.fromstring(formula)
    assert found.tag == "math" and found.get("display") == "block"
    assert "".join(found.itertext()) == "P=V2sin(2θ)"


def test_every_element_can_stand_in_an_equation():
    formula = equation(row(sym("η"), TIMES, paren(sym("m"), MINUS, num(1))), PLUS,
                       word(" for a bridge"), LEQ, op(","))
    found = ElementTree.fromstring(formula)
    assert "".join(found.itertext()) == "η×(m−1)+ for a bridge≤,"
    assert [child.tag for child in found.iter()].count("mo") == 7
