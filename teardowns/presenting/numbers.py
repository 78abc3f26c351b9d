"""How the pages print numbers that are not plain quantities."""
from math import isfinite

from core.words.as_written import Quoted
from teardowns.reading.printing import MINUS, print_interval, print_quantity
from teardowns.reading.printing import NARROW_SPACE as THIN

EDGES = (0.01, 0.1, 0.5, 0.9)          # where the verdict word changes
RATIOS = (
    (1 / 10, "a tenth"), (1 / 5, "a fifth"), (1 / 4, "a quarter"), (1 / 3, "a third"),
    (1 / 2, "half"), (2 / 3, "two thirds"), (3 / 4, "three quarters"),
)


def number(value: float, digits: int = 3) -> str:
    """A plain decimal number of so many significant digits."""
    return print_quantity(value, "1", digits=digits)


def as_recorded(value: float, unit: str) -> str:
    """The digits that were entered: `16 V`, `0.23 mm`; no zeros that nobody measured."""
    number, space, symbol = print_quantity(value, unit, digits=6).partition(THIN)
    if "." in number and "e" not in number:
        number = number.rstrip("0").rstrip(".")
    return number + space + symbol


def printed(value: float) -> str:
    """A number as a plate prints it: 45, 2.25, 22.5."""
    return f"{value:.5g}".replace("-", MINUS)


def with_unit(text: str, unit: str) -> str:
    return f"{text}{THIN}{unit}"


def claimed_watts(value: float) -> str:
    return with_unit(printed(value), "W")


def claim_in_words(claim: dict) -> str:
    """`45 W`, or `20 V` for a claim that states no power."""
    return claim["text"] if claim["power"] is None else claimed_watts(claim["power"])


def quoted(claim: dict) -> str:
    """The claim as printed, in quotation marks; its figures where the words are not recorded."""
    return Quoted(claim["printed"]) if claim["printed"] else claim["text"]


def chance(fraction: str) -> str:
    """`1/20 000`: the fraction `1/20000` with its thousands apart."""
    return "/".join(f"{int(part):,}".replace(",", THIN) for part in fraction.split("/"))


def volts(value: float) -> str:
    return with_unit(printed(value), "V")


def span(low: float, high: float) -> str:
    """`13.1 to 16.7`."""
    return print_interval(low, high, "1")


def plausibility(p: float | None) -> str:
    """Never 0 and never 1: evidence does not reach either."""
    if p is None:
        return "not judged"
    if p < 0.001:
        return f"<{THIN}0.001"
    if p > 0.999:
        return f">{THIN}0.999"
    digits = 3 if p < 0.01 or p > 0.99 else 2
    while any((p < edge) != (round(p, digits) < edge) for edge in EDGES):
        digits += 1                  # 0.8996 is not yet 0.90, which has another word
    return f"{p:.{digits}f}"


def p_equals(p: float | None) -> str:
    """`p = 0.91`, `p < 0.001`."""
    text = plausibility(p)
    return f"p {text}" if text[0] in "<>" else f"p = {text}"


def decibans(value: float) -> str:
    """Signed; tenths only where they can matter."""
    if not isfinite(value):
        return "beyond all bounds"
    text = f"{abs(value):.0f}" if abs(value) >= 99.95 else f"{abs(value):.1f}"
    if float(text) == 0:
        return text
    return f"{'+' if value > 0 else MINUS}{text}"


def way(decibans: float) -> str:
    """Which way a line pushes, as far as its printed tenth of a deciban shows."""
    if abs(decibans) < 0.05:
        return "neither way"
    return "for" if decibans > 0 else "against"


def share_in_words(ratio: float) -> str:
    """`a third of`, or `38 % of` where no common fraction is within a tenth."""
    value, words = min(RATIOS, key=lambda pair: abs(pair[0] - ratio))
    if abs(value / ratio - 1) <= 0.1:
        return words
    return f"{ratio * 100:.0f}{THIN}%"
