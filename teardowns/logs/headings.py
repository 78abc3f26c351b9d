"""The heading of a column → what it measures, on which side, in which unit.

Words in English, German, French, Spanish, Italian and Dutch, and the letter symbols of IEC 60027
(U or V, I, P, t, T); "U/V" is quantity by unit as ISO 80000-1 writes table headings.
"""
from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass

LONGEST = 200             # characters of a heading that are looked at
VOLTAGE, CURRENT, POWER, TEMPERATURE, TIME, INDEX = (
    "voltage", "current", "power", "temperature", "time", "index")


def _listed(words: str) -> frozenset[str]:
    return frozenset(words.split())


_WORDS = {
    VOLTAGE: "voltage volt volts spannung tension voltaje tensione spanning tensao u v vbus ubus "
             "vout uout vin uin vdc udc vac uac vrms vo vload",
    CURRENT: "current strom courant corriente corrente stroom intensite intensidad ampere amperes "
             "amps amp i iout ibus iin idc iac io irms iload",
    POWER: "power leistung puissance potencia potenza vermogen watt watts p pout pin pac pdc po",
    TEMPERATURE: "temp temperature temperatur temperatura temperatuur ntc thermocouple "
                 "thermoelement tc pt100 pt1000 tamb celsius",
    TIME: "time timestamp zeit temps tiempo tempo tijd elapsed uhrzeit heure hora ora datum date "
          "datetime zeitstempel horodatage fecha data second seconds sekunde sekunden seconde "
          "secondes segundos secondi seconden sec secs sek ms millis milliseconds minutes minuten "
          "hours stunden runtime laufzeit duration tijdstip",
    INDEX: "no nr num index idx sample samples record rec point points id count row lfd messung "
           "reading punto punkt meting mesure",
}
_SIDES = {                # the narrower first: "output ripple" is ripple
    "set": "set setpoint soll sollwert consigne consigna iset target setting sollstrom impostata",
    "ripple": "ripple welligkeit restwelligkeit ondulation rizado ondulazione rimpel",
    "switch": "drain vds uds vce uce collector switch schalter",
    "winding": "winding wicklung enroulement bobinado avvolgimento wikkeling secondary sekundar "
               "secondaire secundario secondario secundair",
    "ambient": "ambient amb umgebung ambiente ambiante omgeving air luft room raum ta tamb",
    "input": "in input ac mains line netz eingang primar primary entree entrada ingresso ingang "
             "secteur red rete grid vin uin iin pin vac uac iac pac",
    "output": "out output dc ausgang sortie salida uscita uitgang bus load last vbus ubus ibus "
              "vout uout iout pout vdc udc idc pdc vo io po charge carga carico vload iload",
    "channel": "ch chan channel kanal canal voie canale kanaal probe tastkopf sonde trace",
}
# What no role stands for, although a word or the unit beside it would say otherwise.
_OTHER = _listed("""
    factor faktor facteur pf cos cosphi phi apparent schein scheinleistung reactive blind
    energy energie energia capacity kapazitat capacite frequency frequenz frequence resistance
    widerstand status mode modus state max min peak pk avg mean crest thd d+ d- dp dm
    cc1 cc2 vcc1 vcc2 wh mah ah kwh va var hz khz ohm ohms percent battery gain offset trigger
    limit error fehler vmax vmin imax imin pmax pmin umax umin vpk ipk vpp ipp upp vavg iavg
    pavg tmax tmin""")
_QUANTITY_WORDS = _listed(" ".join(_WORDS.values()))
_ALL_WORDS = _QUANTITY_WORDS | _listed(" ".join(_SIDES.values())) | _OTHER
_MAINS_METER = _listed("factor faktor pf cos cosphi apparent scheinleistung reactive frequency "
                       "frequenz va var hz")
_DAY_FRACTIONS = frozenset({"excel", "serial", "tagesbruchteil"})     # a spreadsheet's days
_COMPOUNDS = (  # words that German and Dutch write as one: part → words
    ("spannung", "spannung"), ("strom", "strom"), ("leistung", "leistung"), ("stroom", "stroom"),
    ("temperatur", "temperatur"), ("spanning", "spanning"), ("vermogen", "vermogen"),
    ("eingangs", "eingang"), ("ausgangs", "ausgang"), ("netz", "netz"), ("ingangs", "ingang"),
    ("uitgangs", "uitgang"), ("umgebungs", "umgebung"), ("soll", "soll"), ("zeit", "zeit"),
    ("omgevings", "omgeving"), ("net", "grid"), ("last", "last"), ("schein", "schein"),
    ("wirk", "wirk"), ("blind", "blind"),
)
_UNIT_WORDS = {
    "volt": "V", "volts": "V", "millivolt": "mV", "millivolts": "mV", "ampere": "A", "amps": "A",
    "amp": "A", "amperes": "A", "milliamp": "mA", "milliamps": "mA", "milliampere": "mA",
    "watt": "W", "watts": "W", "milliwatt": "mW", "milliwatts": "mW", "sec": "s", "secs": "s",
    "sek": "s", "second": "s", "seconds": "s", "sekunde": "s", "sekunden": "s", "seconde": "s",
    "secondes": "s", "segundos": "s", "secondi": "s", "seconden": "s", "msec": "ms",
    "millis": "ms", "milliseconds": "ms", "millisekunden": "ms", "usec": "µs", "min": "min",
    "mins": "min", "minutes": "min", "minuten": "min", "hr": "h", "hrs": "h", "hours": "h",
    "stunden": "h", "days": "d", "tage": "d", "jours": "d", "celsius": "°C", "degc": "°C",
    "deg c": "°C", "grad c": "°C", "° c": "°C", "degf": "°F", "deg f": "°F", "° f": "°F",
    "fahrenheit": "°F", "kelvin": "K", "grad celsius": "°C", "degrees c": "°C", "vrms": "V",
    "vdc": "V", "vac": "V", "v dc": "V", "v ac": "V", "v rms": "V", "arms": "A", "adc": "A",
    "aac": "A", "a dc": "A", "a ac": "A", "a rms": "A", "w dc": "W", "w ac": "W",
}
_SYMBOLS = {prefix + unit: prefix + unit for unit in "VAW" for prefix in ("", "m", "k", "µ", "n")}
_SYMBOLS |= {"s": "s", "ms": "ms", "µs": "µs", "us": "µs", "ns": "ns", "ps": "ps", "h": "h",
             "d": "d", "°C": "°C", "°F": "°F", "C": "°C", "K": "K", "F": "°F", "uV": "µV",
             "uA": "µA", "uW": "µW", "S": "s", "v": "V", "a": "A", "w": "W", "mv": "mV",
             "ma": "mA", "mw": "mW", "kv": "kV", "KV": "kV", "mS": "ms", "°c": "°C"}
# Capitals throughout leave open whether M is milli or mega.
_OPEN_UNITS = {"MV": ("mV", "MV"), "MA": ("mA", "MA"), "MW": ("mW", "MW"), "M": ("min", "ms")}
_QUANTITY_OF_UNIT = {"V": VOLTAGE, "A": CURRENT, "W": POWER, "s": TIME, "h": TIME, "n": TIME,
                     "d": TIME, "C": TEMPERATURE, "K": TEMPERATURE, "F": TEMPERATURE}
_NO_UNIT = frozenset({"", "-", "--", "none", "1", "#", "n/a"})


@dataclass(frozen=True, slots=True)
class Heading:
    quantity: str = ""        # VOLTAGE … INDEX, "" unknown
    side: str = ""            # "input" "output" "set" "ripple" "switch" "winding" "ambient"
    unit: str = ""            # key of roles.UNITS, "" unknown
    units: tuple[str, ...] = ()       # where the heading leaves open which of these is meant
    named: bool = False       # a word or symbol says the quantity; else its unit alone does
    mains_meter: bool = False         # what only an instrument for mains shows


def read_heading(text: str, unit_line: str = "") -> Heading:
    """What a heading says. unit_line: the cell under it in a line of units."""
    plain = _plain(text[:LONGEST])
    name, written = _name_and_unit(plain)
    unit, units = read_unit(unit_line) if unit_line.strip() else read_unit(written)
    words = _words(name)
    mains_meter = bool((words | _words(written) | _words(unit_line)) & _MAINS_METER)
    if words & _OTHER or (written and not unit and not units) or _is_other_unit(unit_line, unit):
        return Heading(mains_meter=mains_meter)
    quantity, named = _quantity(name, words, unit)
    side = next((side for side, known in _SIDES.items()
                 if words & _listed(known) and side != "channel"), "")
    if side in {"ripple", "switch"} and quantity in {"", VOLTAGE}:
        quantity, named = VOLTAGE, True
    if quantity == TIME and not unit and words & _DAY_FRACTIONS:
        unit = "d"
    if not side and re.search(r"\b[VA] ?ac\b", f"{written} {unit_line}", re.IGNORECASE):
        side = "input"
    if quantity and unit and _QUANTITY_OF_UNIT[unit[-1]] != quantity:
        return Heading(mains_meter=mains_meter)
    return Heading(quantity, side, unit, units, named, mains_meter)


def read_unit(text: str) -> tuple[str, tuple[str, ...]]:
    """(unit, ()) where it is known, ("", units) where several are meant, ("", ()) else."""
    bare = _plain(text).strip().strip("[](){}<>").strip()
    if bare in _OPEN_UNITS:
        return "", _OPEN_UNITS[bare]
    return _SYMBOLS.get(bare) or _UNIT_WORDS.get(bare.lower(), ""), ()


def is_unit_cell(text: str) -> bool:
    """Whether a cell of a line of units could hold this."""
    bare = _plain(text).strip().strip("[](){}<>").strip()
    return bare.lower() in _NO_UNIT or bool(read_unit(text)[0] or read_unit(text)[1]) or \
        bare.lower() in _OTHER


def is_channel(text: str) -> bool:
    return bool(_words(_plain(text)) & _listed(_SIDES["channel"]))


def _is_other_unit(unit_line: str, unit: str) -> bool:
    return unit_line.strip().strip("[](){}").lower() in _OTHER and not unit


def _plain(text: str) -> str:
    """One spelling of each sign: µ, °, Ω have several code points; accents go."""
    for written, plain in (("μ", "µ"), ("º", "°"), ("˚", "°"), ("℃", "°C"), ("℉", "°F"),
                           ("\u00a0", " "), ("#", " no " if text.strip() == "#" else "")):
        text = text.replace(written, plain)
    apart = unicodedata.normalize("NFD", text)
    return " ".join("".join(c for c in apart if unicodedata.category(c) != "Mn").split())


def _name_and_unit(text: str) -> tuple[str, str]:
    """ "U (mV)", "U/mV", "U in mV", "U mV", "u_mV" and "mV" → name and unit as written."""
    brackets = list(re.finditer(r"[\[({<]([^\])}>]*)[\])}>]", text))
    units = [found for found in brackets if any(read_unit(found[1]))]
    inside = units[-1] if units else brackets[0] if brackets else None
    if inside and (inside[1].strip() or text[inside.end():].strip()):
        rest = f"{text[:inside.start()]} {text[inside.end():]}".strip()
        if any(read_unit(inside[1])) or rest and not _words(inside[1]) & _ALL_WORDS:
            return rest, inside[1]
        return f"{rest} {inside[1]}".strip(), ""
    for pattern in (r"(.+?) ?/ ?([^/ ]+)", r"(.+) (?:in|en|im) ([^ ]+)",
                    r"(.+?)[ _.,:-]+((?:deg|grad|°) ?[CcFf]|[VA] ?(?:ac|dc|rms|AC|DC|RMS))",
                    r"(.+)[ _,:-]+([^ _]+)"):
        found = re.fullmatch(pattern, text)
        if found and any(read_unit(found[2])) and not _is_symbol_of(found[1], found[2]):
            return found[1], found[2]
    return (text, text) if any(read_unit(text)) else (text, "")


def _is_symbol_of(name: str, unit: str) -> bool:
    """ "channel A" and "set V" end in a letter that may be a name; "Strom A" in a unit."""
    return unit in {"A", "C", "F", "K", "a", "d", "h"} and not _words(name) & _QUANTITY_WORDS \
        and not re.search(r"\bt?c?[0-9]+$", name.lower())


def _words(text: str) -> frozenset[str]:
    plain = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", text)
    found = {word for word in re.split(r"[^a-z0-9+°µ-]+|(?<=[a-z])-(?=[a-z])",
                                       f"{plain} {text}".lower()) if word}
    found |= {re.sub(r"[0-9]+$", "", word) for word in found if not word.startswith("cc")}
    for word in tuple(found):
        found |= {word_of for part, word_of in _COMPOUNDS if len(word) > 6 and (
            word.startswith(part) or word.endswith(part))}
    return frozenset(found)


def _quantity(name: str, words: frozenset[str], unit: str) -> tuple[str, bool]:
    by_unit = _QUANTITY_OF_UNIT[unit[-1]] if unit else ""
    known = {quantity for quantity, listed in _WORDS.items() if words & _listed(listed)}
    if re.fullmatch(r"[tT]", name) and not by_unit:
        known = {TIME} if name == "t" else known
    elif re.fullmatch(r"T_?[a-zA-Z0-9]*|t[0-9]+", name) and by_unit in {"", TEMPERATURE} \
            and not known and len(name) <= 6:
        known = {TEMPERATURE}
    if by_unit and by_unit in known or by_unit and not known:
        return by_unit, by_unit in known or name.strip() in _SYMBOLS or (
            by_unit in {TIME, TEMPERATURE} and "channel" not in name.lower())
    if len(known) > 1 and INDEX in known:
        known -= {INDEX}
    if len(known) > 1 and unit == "" and known & {VOLTAGE, CURRENT, POWER} and TIME in known:
        known -= {TIME}
    return (known.pop(), True) if len(known) == 1 else ("", False)
