import pytest

from teardowns.figures.budget import Part, budget_bars

from .drawing import of_class, parsed, share, words

PARTS = [Part("V", "68 ± 13 V", 2.5, "2.50 W", "91 %"), Part("C", "", 0.25, "0.25 W", "1 %")]
TOTAL = Part("Combined", "", 2.62, "2.62 W", "")


def test_bars_are_as_long_as_the_contributions():
    tree = parsed(budget_bars("Caption", "W", PARTS, TOTAL))
    long, short = (share(bar, "width") for bar in of_class(tree, "part"))
    assert long / short == pytest.approx(10, rel=1e-3)       # 2.5 W against 0.25 W


def test_the_combined_uncertainty_closes_the_table():
    tree = parsed(budget_bars("Caption", "W", PARTS, TOTAL))
    assert "Combined" in words(tree.find(".//tfoot"))
    assert len(of_class(tree, "unc")) == 1


def test_a_result_without_uncertainty_can_be_drawn():
    nothing = Part("Combined", "", 0.0, "0 W", "")
    assert parsed(budget_bars("Caption", "W", [], nothing)) is not None
