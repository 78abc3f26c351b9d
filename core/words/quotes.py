"""Quotation marks as a language sets them; what stands between them stays as it stands."""
import re

# A mark that closes is the nearest one: what is quoted may quote in turn, and keeps those marks.
ENGLISH = re.compile(r"“((?:[^“”„]|“[^“”„]*”)*)”")
MARKS_IN = {"de": "„{}“"}


def quotes_in(language: str, text: str) -> str:
    if "”" not in text or language not in MARKS_IN:
        return text
    return ENGLISH.sub(lambda found: MARKS_IN[language].format(found[1]), text)
