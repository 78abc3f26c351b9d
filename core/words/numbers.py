"""Numbers and dates as a language prints them."""
import re

# A point is a decimal point only where a quantity stands: alone, before a unit or a tolerance, or
# after a comparison. "USB 2.0", "IEC 62368-1 5.4.2" and "2026.11" keep theirs.
BLANK = "[ \u00a0\u2009\u202f]"      # plain, kept together, thin, narrow
NUMBER = rf"(?<![\w.,])[−+-]?\d+(?:{BLANK}\d{{3}})*\.\d+(?:[eE][−+-]?\d+)?"
UNIT = (r"(?:[pnµmkMG]?(?:W|VA|V|A|Hz|F|H|Ω|s|m|g|K|J|C|T|b|bit)|Wh|mAh|Ah|°C|°|%|dB|dBµV|min|h|d|"
        r"kB|MB|GB|cm³|mm³|mm²|cm²|m²|m³|in|px|W/cm³|W/g|g/W|A/mm²|µF/W|K/W|Mpx|€|EUR|USD|GBP|CHF)")
GAP = f"{BLANK}?"
AFTER = rf"(?={GAP}(?:{UNIT}(?![\w])|±|×|\)|to{BLANK}|bis{BLANK}))"
QUANTITY = re.compile(rf"(?:(?<=[=<>≤≥≈±×~(]){GAP}{NUMBER}|(?<=\bbis ){NUMBER}|{NUMBER}{AFTER})")
ALONE = re.compile(rf"\s*(?:{NUMBER}|[−+-]?\d+)[.:;,]?\s*")       # at the end of a sentence too
RANGE = re.compile(rf"({NUMBER}|(?<![\w.,])[−+-]?\d+)({GAP}(?:{UNIT})?) to (?=[−+-]?\d)")
MEASURE = re.compile(rf"(?:[\d\s.,;:±×·/=<>≤≥≈~()\[\]+−–—%°-]|"
                     rf"(?<![^\W\d_])(?:{UNIT}|to|(?<=\d )of(?= \d))(?![^\W\d_]))+")
LETTERS = re.compile(r"[A-Z] to [A-Z]")          # places that are lettered, not numbered
COUNTED = re.compile(r"(?<=\d) of (?=\d)")
QUOTED = re.compile(r"(“[^”]*”)")
INSIDE = re.compile(r"(?<=[0-9])\.(?=[0-9])")
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September",
          "October", "November", "December")
DATE = re.compile(rf"\b(\d{{1,2}}) ({'|'.join(MONTHS)}) (\d{{4}})\b")
COMMA = {"de"}          # languages with a decimal comma
MONTHS_IN = {"de": ("Januar", "Februar", "März", "April", "Mai", "Juni", "Juli", "August",
                    "September", "Oktober", "November", "Dezember")}
TO_IN, OF_IN = {"de": "bis"}, {"de": "von"}
DATE_IN = {"de": "{day}. {month} {year}"}


def numbers_in(language: str, text: str) -> str:
    """Decimal points and dates in this language's form; what is quoted stays as printed."""
    if is_measure(text) or LETTERS.fullmatch(text):
        text = text.replace(" to ", f" {TO_IN.get(language, 'to')} ")
        return ", ".join(_numbers(language, piece) for piece in text.split(", "))
    return "".join(piece if piece.startswith("“") else _numbers(language, piece)
                   for piece in QUOTED.split(text))


def _numbers(language, text):
    if language in DATE_IN:
        text = DATE.sub(lambda found: _date(language, *found.groups()), text)
    if language in TO_IN:
        text = RANGE.sub(rf"\1\2 {TO_IN[language]} ", text)
        text = COUNTED.sub(f" {OF_IN[language]} ", text)
    if language not in COMMA or "." not in text:
        return text
    if ALONE.fullmatch(text):
        return INSIDE.sub(",", text)
    return QUANTITY.sub(lambda found: found[0].replace(".", ","), text)


def is_measure(text: str) -> bool:
    """Nothing but numbers, units and the signs between them."""
    return MEASURE.fullmatch(text) is not None


def decimal_mark(language: str) -> str:
    """How people of this language write a number; the other mark may stand between thousands."""
    return "," if language.split("-")[0] in COMMA else "."


def as_typed(text: str, language: str) -> str:
    """Numbers with their units, as they are typed into a field in this language."""
    return INSIDE.sub(decimal_mark(language), text)


def _date(language, day, month, year):
    return DATE_IN[language].format(day=day, month=MONTHS_IN[language][MONTHS.index(month)],
                                    year=year)
