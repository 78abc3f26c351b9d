"""Units a field may be written in, and how each is printed.

Symbols and prefixes follow the SI Brochure, 9th edition, tables 2, 4, 7 and 8. Micro is accepted as
u, U, U+00B5 and U+03BC, kilo also as K, ohm also as R: everyday spellings of the trade
(common practice, no source).
"""

from __future__ import annotations

from typing import NamedTuple


class Scale(NamedTuple):
    """One spelled unit: value in SI = number × 10**power × factor."""

    power: int
    factor: float = 1.0


class Step(NamedTuple):
    """One unit of a printing ladder, used from `threshold` (in SI) upwards."""

    threshold: float
    symbol: str
    power: int
    factor: float = 1.0


_SMALL = {"p": -12, "n": -9, "u": -6, "U": -6, "µ": -6, "μ": -6, "m": -3}
_LARGE = {"k": 3, "K": 3, "M": 6, "G": 9, "T": 12}
PREFIX_POWERS = {**_SMALL, "": 0, **_LARGE}

# SI code -> (spellings of the unit itself, prefixes it may take)
_PREFIXED = {
    "V": (("V", "v"), "nuUµμmkKM"),
    "A": (("A", "a"), "pnuUµμmkK"),
    "W": (("W", "w"), "nuUµμmkKM"),
    "VA": (("VA", "va"), "mkKM"),
    "F": (("F", "f"), "pnuUµμm"),
    "H": (("H", "h"), "pnuUµμm"),
    "Hz": (("Hz", "hz", "HZ"), "mkKMG"),
    "Ω": (("Ω", "\u2126", "R", "ohm", "Ohm", "OHM", "ohms", "Ohms"), "uUµμmkKMGT"),
    "T": (("T",), "nuUµμm"),
    "J": (("J",), "nuUµμmkK"),
    "s": (("s", "sec"), "pnuUµμm"),
    "m": (("m",), "nuUµμmkK"),
    "K": (("K",), "m"),
}
_AREA_VOLUME = {"m²": (("²", "2", "^2"), 2), "m³": (("³", "3", "^3"), 3)}


def _spellings(symbols: tuple[str, ...], prefixes: str) -> dict[str, Scale]:
    spelled = {symbol: Scale(0) for symbol in symbols}
    for prefix in prefixes:
        for symbol in symbols:
            spelled.setdefault(prefix + symbol, Scale(PREFIX_POWERS[prefix]))
    return spelled


def _power_spellings(marks: tuple[str, ...], exponent: int) -> dict[str, Scale]:
    lengths = {"m": 0, "cm": -2, "mm": -3}
    return {
        length + mark: Scale(power * exponent)
        for length, power in lengths.items()
        for mark in marks
    }


# SI code -> {spelling: scale}: everything a field of that unit accepts.
SPELLINGS: dict[str, dict[str, Scale]] = {
    **{code: _spellings(*spec) for code, spec in _PREFIXED.items()},
    **{code: _power_spellings(*spec) for code, spec in _AREA_VOLUME.items()},
    "kg": {"g": Scale(-3), "kg": Scale(0), "Kg": Scale(0), "mg": Scale(-6)},
    "°C": dict.fromkeys(("°C", "° C", "\u2103", "ºC", "C", "degC", "deg C"), Scale(0)),
    "%": {"%": Scale(0)},
    "1": {"%": Scale(-2)},
}
SPELLINGS["m"]["cm"] = Scale(-2)
for _hour_or_minute, _seconds in {"min": 60.0, "h": 3600.0}.items():
    SPELLINGS["s"][_hour_or_minute] = Scale(0, _seconds)

# As plates and capacitors print it: what kind of voltage a field takes, its own name says.
_KINDS = {
    "V": ("V~", "V⎓", "VAC", "Vac", "V AC", "VDC", "Vdc", "V DC", "Vrms", "V rms"),
    "A": ("A~", "A⎓", "AAC", "A AC", "ADC", "Adc", "A DC", "Arms", "A rms"),
}
SPELLINGS["V"].update(dict.fromkeys(_KINDS["V"], Scale(0)))
SPELLINGS["A"].update(dict.fromkeys(_KINDS["A"], Scale(0)))
# Units as a person writes them out, in English and German.
_WRITTEN_OUT = {
    ("V", Scale(0)): "volt volts Volt Volts",
    ("A", Scale(0)): "amp amps Amp Amps ampere amperes Ampere",
    ("W", Scale(0)): "watt watts Watt Watts",
    ("Hz", Scale(0)): "hertz Hertz",
    ("s", Scale(0)): "secs second seconds Sekunde Sekunden",
    ("s", Scale(0, 60.0)): "mins minute minutes Minute Minuten",
    ("s", Scale(0, 3600.0)): "hr hrs hour hours Std Stunde Stunden",
    ("kg", Scale(-3)): "gram grams Gramm",
}
for (_unit, _scale), _names in _WRITTEN_OUT.items():
    SPELLINGS[_unit].update(dict.fromkeys(_names.split(), _scale))

# SI code -> letters that may stand for the decimal point or alone behind the number (4k7, 2R2,
# 1.5k, 65k hertz): prefixes of the unit and its own sign. L for milliohm is of IEC 60062 too. Of a
# length it would be open which m is meant, of a time whether m is milli or minutes.
LETTER_POWERS: dict[str, dict[str, int]] = {
    code: {prefix: PREFIX_POWERS[prefix] for prefix in prefixes}
    | {symbol: 0 for symbol in symbols if len(symbol) == 1}
    for code, (symbols, prefixes) in _PREFIXED.items() if code not in ("m", "s", "K")
}
LETTER_POWERS["Ω"] |= {"r": 0, "L": -3}
LETTER_POWERS["s"] = {prefix: PREFIX_POWERS[prefix] for prefix in "nuUµμ"}

EXAMPLES = {
    "V": "5.1 V", "A": "2.4 A", "W": "18 W", "VA": "25 VA", "F": "4.7 µF", "H": "680 µH",
    "Hz": "65 kHz", "Ω": "4.7 kΩ", "T": "310 mT", "J": "1.2 J", "s": "90 min", "m": "6.4 mm",
    "K": "35 K", "m²": "23.3 mm²", "m³": "1.5 cm³", "kg": "42 g", "°C": "71 °C", "%": "87 %",
    "1": "0.87",
}
_SHOWN = {
    "V": "mV, V or kV", "A": "µA, mA or A", "W": "mW, W or kW", "VA": "VA", "T": "mT or T",
    "F": "pF, nF, µF or mF", "H": "nH, µH, mH or H", "Hz": "Hz, kHz or MHz", "J": "mJ or J",
    "Ω": "mΩ, Ω, kΩ or MΩ", "s": "µs, ms, s, min or h", "m": "µm, mm, cm or m",
    "m²": "mm², cm² or m²", "m³": "mm³, cm³ or m³", "kg": "mg, g or kg", "1": "% or nothing",
}


def spellings_of(unit: str) -> dict[str, Scale]:
    """Every spelling accepted for `unit`; an unlisted unit accepts only its own code."""
    return SPELLINGS.get(unit) or {unit: Scale(0)}


def example_of(unit: str) -> str:
    return EXAMPLES.get(unit, f"1.5 {unit}")


def units_shown(unit: str) -> str:
    """The usual spellings, for an error message: 'mV, V or kV'."""
    return _SHOWN.get(unit, unit)


_SYMBOLS = {-12: "p", -9: "n", -6: "µ", -3: "m", 0: "", 3: "k", 6: "M", 9: "G"}


def _ladder(symbol: str, lowest: int, highest: int) -> tuple[Step, ...]:
    powers = [power for power in _SYMBOLS if lowest <= power <= highest]
    return tuple(Step(10.0**power, _SYMBOLS[power] + symbol, power) for power in powers)


# SI code -> printing ladder, ascending. A unit that is not here is printed without prefix.
LADDERS: dict[str, tuple[Step, ...]] = {
    "V": _ladder("V", -6, 6), "A": _ladder("A", -9, 3), "W": _ladder("W", -6, 6),
    "VA": _ladder("VA", -3, 6), "F": _ladder("F", -12, -3), "H": _ladder("H", -9, 0),
    "Hz": _ladder("Hz", 0, 9), "Ω": _ladder("Ω", -3, 9), "T": _ladder("T", -6, 0),
    "J": _ladder("J", -6, 3),
    # Two minutes and two hours, so that 90 s stays 90 s and 90 min stays 90 min.
    "s": (*_ladder("s", -9, 0), Step(120.0, "min", 0, 60.0), Step(7200.0, "h", 0, 3600.0)),
    "m": (Step(0.0, "mm", -3), Step(1.0, "m", 0)),
    "kg": (Step(0.0, "g", -3), Step(1.0, "kg", 0)),
    "m²": (Step(0.0, "mm²", -6), Step(1e-3, "cm²", -4), Step(1.0, "m²", 0)),
    "m³": (Step(0.0, "mm³", -9), Step(1e-6, "cm³", -6), Step(1.0, "m³", 0)),
}  # fmt: skip
