from teardowns.engine import rulebook
from teardowns.engine.mathml import EQ, equation, frac, num, op, row, sym, word
from teardowns.presenting.formula import formula_lines


def test_equations_that_a_comma_parts_stand_on_lines_of_their_own():
    formula = equation(sym("P"), EQ, sym("U"), sym("I"), op(","), sym("p"), EQ, num(1))
    first, second = formula_lines(formula)
    assert "<mi>U</mi>" in first and "<mi>p</mi>" in second
    assert "<mo>,</mo>" not in first + second


def test_a_comma_inside_an_equation_stays():
    formula = equation(sym("θ"), EQ, word("π for a bridge"), op(","), word("2π for half wave"))
    line, = formula_lines(formula)
    assert "<mo>,</mo>" in line


def test_a_comma_deeper_down_stays():
    line, = formula_lines(equation(sym("P"), EQ, frac(row(sym("a"), op(","), sym("b")), num(2))))
    assert "<mo>,</mo>" in line


def test_spaces_in_words_are_kept():
    line, = formula_lines(equation(sym("P"), EQ, word(" if found")))
    assert "\u00a0if\u00a0found" in line


def test_every_formula_of_the_rulebook_can_be_set():
    rules = rulebook.load()
    for rule in rules.lines + rules.checks:
        assert all(line.startswith("<math") for line in formula_lines(rule.formula)), rule.id
