"""Values that a marking spells out: 15µF, 400V, 105°C, 1KV, 250~, 1/4W."""

from __future__ import annotations

import re
from collections.abc import Iterator

_NUMBER = r"([0-9]{1,6}(?:\.[0-9]{1,4})?|\.[0-9]{1,4})"
_VOLTAGE = re.compile(
    rf"{_NUMBER} ?(?:(k|K)?[Vv]\.?(?: ?(~|⎓|AC|DC|ac|dc|WV|W))?|(~|VAC|VDC|WV|Vac|Vdc))"
)
_TEMPERATURE = re.compile(
    r"(?:-[0-9]{1,2}(?:°C?)?(?:~|\.\.\.?|/|to|(?=\+)))?\+?([0-9]{2,3})(?:°C?|C)"
)
_UNITS = {
    "F": {"pF": -12, "PF": -12, "pf": -12, "nF": -9, "NF": -9, "nf": -9, "µF": -6, "uF": -6,
          "UF": -6, "uf": -6, "MFD": -6, "mfd": -6, "µ": -6, "p": -12, "n": -9},
    "Ω": {"mΩ": -3, "Ω": 0, "kΩ": 3, "KΩ": 3, "MΩ": 6, "ohm": 0, "Ohm": 0, "OHM": 0, "kohm": 3,
          "k": 3, "mohm": -3, "Mohm": 6},
    "H": {"nH": -9, "µH": -6, "uH": -6, "UH": -6, "uh": -6, "mH": -3, "MH": -3, "H": 0},
    "A": {"mA": -3, "MA": -3, "ma": -3, "A": 0, "a": 0},
    "W": {"W": 0, "w": 0, "mW": -3},
}  # fmt: skip
_FRACTION = re.compile(r"1/([1-9][0-9]?)[Ww]")


def _spelled(unit: str) -> re.Pattern[str]:
    spellings = sorted(_UNITS[unit], key=len, reverse=True)
    return re.compile(rf"{_NUMBER} ?({'|'.join(spellings)})")


_WRITTEN = {unit: _spelled(unit) for unit in _UNITS}


def read_written(token: str, unit: str) -> float | None:
    """The SI value of a number with its unit: `15µF` for "F", `4.7kΩ` for "Ω"."""
    match = _WRITTEN[unit].fullmatch(token)
    return float(f"{match[1]}e{_UNITS[unit][match[2]]}") if match else None


def read_voltage(token: str) -> tuple[float, str | None] | None:
    """(volts, "ac", "dc" or None) of `400V`, `1KV`, `250~`, `275VAC`."""
    match = _VOLTAGE.fullmatch(token)
    if match is None:
        return None
    mark = (match[3] or match[4] or "").upper()
    kind = "ac" if mark in ("~", "AC", "VAC") else "dc" if mark in ("⎓", "DC", "VDC") else None
    return float(f"{match[1]}e{3 if match[2] else 0}"), kind


def read_temperature(token: str) -> float | None:
    match = _TEMPERATURE.fullmatch(token)
    return float(match[1]) if match else None


def read_power(token: str) -> float | None:
    """`2W`, `0.25W`, `1/4W`."""
    fraction = _FRACTION.fullmatch(token)
    return 1.0 / int(fraction[1]) if fraction else read_written(token, "W")


_TRANSLATION = str.maketrans(
    {"μ": "µ", "\u2126": "Ω", "\u2103": "°C", "º": "°", "˚": "°", "×": "x", "−": "-", "–": "-",
     "～": "~", "∼": "~", "∿": "~", "〜": "~", "\ufe0f": ""}
)  # fmt: skip
_COMMA = re.compile(r"(?<=[0-9]),(?=[0-9])")
_GLUE = re.compile(
    r"(?<=[0-9]) +"
    r"(?=(?:[uUµpPnNm]F|[kKM]?(?:Ω|ohm)|Ohm|[uµm]H|[kK]?V|°C?|VAC|VDC|m?A|W)(?![A-Za-z]))"
)
_GLUE_KIND = re.compile(r"(?<=[Vv]) +(?=(?:AC|DC|ac|dc|~|⎓)(?![A-Za-z]))")
_DOTTED = re.compile(r"(?<![A-Za-z])([acdACD])\.[cC]\.?")
_TOKEN = re.compile(r"[^\s,;|()]+")


def plain(text: str) -> str:
    """Look-alike signs replaced, numbers glued to their units, decimal commas turned to points."""
    text = _COMMA.sub(".", text.translate(_TRANSLATION))
    text = _DOTTED.sub(lambda m: m[1].upper() + "C", text)
    return _GLUE_KIND.sub("", _GLUE.sub("", text))


def tokens(text: str) -> Iterator[str]:
    for match in _TOKEN.finditer(text):
        token = match[0].lstrip(":").rstrip(".:-")
        if token:
            yield token
