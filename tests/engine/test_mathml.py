from xml.etree import ElementTree

from teardowns.engine.mathml import EQ, equation, fn, frac, inline, num, power, sym


def test_a_symbol_has_an_upright_subscript():
    found = ElementTree.fromstring(inline(sym("V", "min")))
    assert [child.tag for child in found.iter()] == ["math", "msub", "mi", "mi"]
    assert "".join(found.itertext()) == "Vmin"


def test_an_equation_is_a_block_of_mathml():
    formula = equation(sym("P"), EQ, frac(power(sym("V"), 2), fn("sin", num(2), sym("θ"))))
    found = ElementTree.fromstring(formula)
    assert found.tag == "math" and found.get("display") == "block"
    assert "".join(found.itertext()) == "P=V2sin(2θ)"
