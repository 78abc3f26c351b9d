"""Capacitor classes of IEC 60384-14, and which of them may bridge which barrier."""
import re
from functools import lru_cache

import numpy as np

from .table import Table

CLASSES = Table(
    "Capacitor classes",
    ("Class", "Bridges", "Rated a.c. voltage, V", "Peak impulse test, kV"),
    (("X1", "line to line", "", "4, above 1 µF 4/√C"), ("X2", "line to line", "",
     "2.5, above 1 µF 2.5/√C"), ("X3", "line to line (old)", "", "none"),
     ("Y1", "double or reinforced insulation", "up to 500", "8"),
     ("Y2", "basic or supplementary insulation", "150 to 300", "5"),
     ("Y3", "basic or supplementary insulation (old)", "150 to 250", "none"),
     ("Y4", "basic or supplementary insulation", "below 150", "2.5")),
    "IEC 60384-14; class pages of three capacitor makers and a product-safety list.", "A")
ACCEPTED = Table(
    "Capacitors that a barrier accepts", ("Barrier", "Accepted"),
    (("PRI_SEC", "one Y1, or two Y2 in series; two Y4 in series up to 150 V mains (from memory)"),
     ("PRI_PE", "Y1 or Y2"), ("L_N", "any X or Y")),
    "IEC 62368-1:2018, 5.5.2, G.11.3, table G.12; a certifier's questions and answers and a "
    "product-safety list.", "A")
PROOF = Table(
    "Voltage proof of capacitors", ("Class", "V rms"), (("Y1", 4000), ("Y2", 1500)),
    "IEC 60384-14; class pages of two capacitor makers.", "A")
ENDURANCE = Table(
    "Endurance test of capacitors", ("Kind", "times the rated voltage"), (("X", 1.25), ("Y", 1.7)),
    "IEC 60384-14, as a table of its tests prints it.", "B")
BY_ROLE = {"barrier_capacitor": "PRI_SEC", "x_capacitor": "L_N"}
_MARKS = re.compile(r"(?<![A-Za-z0-9])((?:[XY][1-4][\s/,+]*)+)(?![A-Za-z0-9])")
_ONE = re.compile(r"[XY][1-4]")


@lru_cache(4096)
def classes_in(text: str) -> frozenset[str]:
    """The class marks in a printed text: "X1/Y2" → {X1, Y2}."""
    return frozenset(mark for group in _MARKS.findall(text.upper()) for mark in _ONE.findall(group))


def bears(texts, marks) -> np.ndarray:
    """(m,) bool, whether each printed text bears one of the class marks."""
    texts = np.asarray(texts, dtype=str)
    known, place = np.unique(texts, return_inverse=True)
    found = np.array([bool(classes_in(str(text)) & set(marks)) for text in known], bool)
    return found[place] if len(known) else np.zeros(texts.shape, bool)


def barrier_of(role, bridges) -> np.ndarray:
    """(m,) text, which barrier a capacitor bridges: as recorded, else by its role; "" for any other
    part."""
    role, bridges = np.asarray(role, dtype=str), np.asarray(bridges, dtype=str)
    usual = np.select([role == name for name in BY_ROLE], list(BY_ROLE.values()), "")
    return np.where((usual != "") & (bridges != ""), bridges, usual)


def impulse_voltage(peak, capacitance) -> np.ndarray:
    r"""Peak impulse test voltage of an X capacitor.

    .. math:: U = U_0 / \sqrt{\max(C / 1\,\mu F, 1)}

    peak : (m,) float, 4 kV for X1, 2.5 kV for X2 [V]; capacitance : (m,) float [F]
    (m,) float [V]. Source: IEC 60384-14; a capacitor maker's page.
    """
    return peak / np.sqrt(np.maximum(np.asarray(capacitance, float) / 1e-6, 1.0))
