"""Words of the trade that pages use, each explained in one plain sentence for who never met it."""
from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from django.utils.translation import get_language

from core.words.said import said

# Where an explanation is from; none is quoted.
STANDARDS = "After IEC 60664-1 and IEC 62368-1, in our words, from memory."
PARTS = "After IEC 60384-14, in our words, from memory."
TRADE = "Common usage of the trade, no source."
HERE = "As this site uses the word."
BLANK = re.compile(r"\s+")
SHORT = 5                   # letters


@dataclass(frozen=True, slots=True)
class TradeWord:
    name: str
    sentence: str
    source: str
    other: tuple[str, ...] = ()     # words that mean it as well, or beginnings of them


WORDS = (
    # what the evidence says
    TradeWord("capability", "The power that the unit’s evidence says its output can deliver for "
              "hours, at one mains voltage.", HERE),
    TradeWord("plausibility", "How likely a claim is to be true by the evidence, from 0 to 1; "
              "without evidence 0.5.", HERE),
    TradeWord("90 % interval", "The range in which the value lies with nine chances in ten, by "
              "this evidence.", HERE),
    TradeWord("median", "The value that has as much chance above it as below.", TRADE),
    TradeWord("deciban", "How far a piece of evidence moves the odds: 10 decibans make them ten "
              "times as large.", TRADE),
    # circuit
    TradeWord("mains side", "Everything in the unit that is joined to the mains without "
              "insulation between; also called primary.", HERE, ("primary",)),
    TradeWord("flyback", "The usual circuit of small chargers: the transformer stores energy while "
              "a switch is on, and hands it to the output while it is off.", TRADE),
    TradeWord("controller", "The chip that switches the transformer and keeps the output steady.",
              TRADE),
    TradeWord("bulk capacitor", "The large capacitor on the mains side that feeds the unit between "
              "two peaks of the mains.", TRADE),
    TradeWord("saturation", "The core of a transformer can take up no more magnetism, and the "
              "current rises steeply.", TRADE),
    TradeWord("sense resistor", "A small resistor by which the controller measures the current, "
              "and limits it.", TRADE),
    TradeWord("current density", "Current for each square millimetre of a wire: it says how warm "
              "the wire gets.", TRADE),
    TradeWord("ripple", "The part of a voltage or current that swings to and fro on a steady one.",
              TRADE),
    TradeWord("regulation", "Keeping the output voltage where it is printed; a load at which it "
              "sinks was too much.", TRADE),
    TradeWord("synchronous rectifier", "A transistor in place of the diode at the output, which "
              "wastes less.", TRADE),
    TradeWord("optocoupler", "A part that passes a signal from the output to the mains side as "
              "light, so that no wire joins them.", TRADE),
    TradeWord("varistor", "A part that conducts above a certain voltage and so turns a surge into "
              "heat.", TRADE),
    TradeWord("fusible resistor", "A resistor that opens like a fuse, without a flame, when too "
              "much current flows.", TRADE),
    TradeWord("rms", "The steady voltage that would heat a resistor as much: mains of 230 V rms "
              "have peaks of 325 V.", TRADE),
    # insulation
    TradeWord("barrier", "All that stands between the mains side and what a hand can touch.", HERE),
    TradeWord("clearance", "The shortest way through air between two pieces of metal.", STANDARDS),
    TradeWord("creepage", "The shortest way along the surface of the insulation between two pieces "
              "of metal, where dirt and damp settle.", STANDARDS),
    TradeWord("solid insulation", "Insulation that fills the way itself; its thickness counts.",
              STANDARDS, ("through insulation",)),
    TradeWord("working voltage", "The highest voltage across an insulation in normal use, at the "
              "highest mains voltage on the plate.", STANDARDS),
    TradeWord("basic insulation", "Insulation that protects a hand as long as nothing is broken.",
              STANDARDS),
    TradeWord("reinforced", "Insulation that alone protects as well as two that are independent; "
              "it is asked for between the mains and a hand.", STANDARDS),
    TradeWord("pollution degree", "How much dirt and damp is to be expected on an insulation: 1 "
              "sealed in, 2 as at home, 3 dirt that may conduct.", STANDARDS),
    TradeWord("material group", "How well a plastic withstands small currents over its dirty "
              "surface (CTI): from I, the best, to III.", STANDARDS, ("CTI",)),
    TradeWord("overvoltage category", "How large a surge a device has to stand where it is used; "
              "II is for what has a plug.", STANDARDS),
    TradeWord("transient", "A very short surge that lightning or switching sends along the mains.",
              STANDARDS),
    TradeWord("electric strength", "Whether an insulation holds when a high voltage is put across "
              "it for a minute: a test for qualified people.", STANDARDS),
    TradeWord("type test", "A test of one sample that stands for a whole design.", STANDARDS),
    TradeWord("touch current", "The current through a person who touches the output.", STANDARDS),
    TradeWord("protective earth", "The third wire of a socket, which leads the current of a fault "
              "away.", STANDARDS),
    TradeWord("class II", "A device that protects by insulation alone, without protective earth; "
              "its sign is a square within a square.", STANDARDS),
    TradeWord("Y capacitor", "A capacitor between the mains side and the output, of a class (Y1 or "
              "Y2) that is made never to fail to a short.", PARTS, ("Y1", "Y2")),
    TradeWord("X capacitor", "A capacitor between the two wires of the mains, against "
              "interference.", PARTS, ("X1", "X2")),
    TradeWord("enamel", "The thin varnish on winding wire, which does not count as insulation that "
              "protects a hand.", STANDARDS),
    TradeWord("triple-insulated", "Winding wire with three layers of insulation, of which any two "
              "hold alone.", STANDARDS),
    TradeWord("bobbin", "The plastic body that a transformer is wound on.", TRADE),
    TradeWord("ballast", "A piece of weight that does nothing electrical.", TRADE),
)
NAMES = {word.name: word for word in WORDS}


def words_in(text: str) -> list[TradeWord]:
    """Those that stand in a text of the reader's language, in the order of `WORDS`."""
    folded = BLANK.sub(" ", text).casefold()
    return [word for word, names in _names(get_language())
            if any(_stands_in(folded, *name) for name in names)]


@lru_cache
def _names(language: str | None) -> list[tuple[TradeWord, list[tuple[str, bool]]]]:
    """Each word by its names in this language, and whether a name has to end where its letters do:
    a short one or a number (II) begins other words."""
    found = []
    for word in WORDS:
        names = [said(name) for name in (word.name, *word.other)]
        found.append((word, [(name.casefold(), len(name) < SHORT or name[-1].isupper())
                             for name in names]))
    return found


def _stands_in(text: str, name: str, is_whole: bool) -> bool:
    """Whether a word of the text begins with this name, or is it."""
    at = text.find(name)
    while at >= 0:
        end = at + len(name)
        begins = not (at and _is_letter(text[at - 1]))
        if begins and not (is_whole and end < len(text) and _is_letter(text[end])):
            return True
        at = text.find(name, at + 1)
    return False


def _is_letter(sign: str) -> bool:
    return sign.isalnum() or sign == "_"


def words_named(names: Iterable[str]) -> list[TradeWord]:
    return [NAMES[name] for name in names]
