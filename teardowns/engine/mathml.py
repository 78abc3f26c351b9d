"""Formulas as MathML, by a few words: frac(sym("P"), num(2)) and so on."""


def sym(name: str, sub: str = "") -> str:
    """A variable, with an upright subscript: sym("V", "min")."""
    base = f"<mi>{name}</mi>"
    return f'<msub>{base}<mi mathvariant="normal">{sub}</mi></msub>' if sub else base


def num(text) -> str:
    return f"<mn>{text}</mn>"


def op(text: str) -> str:
    return f"<mo>{text}</mo>"


def word(text: str) -> str:
    return f"<mtext>{text}</mtext>"


def fn(name: str, *argument: str) -> str:
    return row(f"<mi>{name}</mi>", paren(*argument))


def row(*parts: str) -> str:
    return f"<mrow>{''.join(parts)}</mrow>"


def paren(*parts: str) -> str:
    return row(op("("), *parts, op(")"))


def frac(above: str, below: str) -> str:
    return f"<mfrac>{above}{below}</mfrac>"


def power(base: str, exponent) -> str:
    return f"<msup>{base}{num(exponent)}</msup>"


def equation(*parts: str) -> str:
    """The whole <math> element, set apart from the text."""
    return f'<math display="block">{row(*parts)}</math>'


def inline(part: str) -> str:
    return f"<math>{part}</math>"


EQ, TIMES, MINUS, PLUS, LEQ = op("="), op("×"), op("−"), op("+"), op("≤")
