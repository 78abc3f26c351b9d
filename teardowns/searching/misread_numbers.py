"""Numbers of a plate that hold a letter: what they say if the letter was meant as a digit."""
from __future__ import annotations

import re

from .folding import folded

_UNITS = r"(?:m ?A|V|A|W|VA|Hz|volts?|amps?|watts?)"
_LETTERS = "OoIlSsBZz"
# At least one digit and one letter that digits are misread as, with a unit behind it or its range.
_MISREAD = re.compile(
    rf"(?<![A-Za-z0-9])(?=[.,{_LETTERS}]*[0-9])(?=[.,0-9]*[{_LETTERS}])"
    rf"[0-9{_LETTERS}][0-9{_LETTERS}.,]{{0,7}}"
    rf"(?=(?:[-~–/][0-9]{{1,4}})? ?{_UNITS}(?![A-Za-z]))")


def corrected_numbers(text: str) -> str:
    """The text with such letters as digits: something to offer, for a person decides.

    >>> corrected_numbers("OUTPUT: 5V 2.IA, I2V 1A, model S5")
    'OUTPUT: 5V 2.1A, 12V 1A, model S5'
    """
    return _MISREAD.sub(lambda match: folded(match.group()), text)
