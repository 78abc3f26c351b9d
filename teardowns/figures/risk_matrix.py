"""Severity by probability, with a scenario's cell and the bands beside it."""
from teardowns.engine.risk import BAND_WORDS, LEVELS, MATRIX

from .markup import element, escape

SEVERITIES = tuple(sorted(MATRIX))
LEGEND = ("severity 1 to 4 across. Solid frame: this scenario; dashed: one band more and one less "
          "probable. S serious, H high, M medium, L low; the letters are from memory.")


def risk_matrix(title: str, severity: int, band: int) -> str:
    """The table. Letters stand in every cell, so that no shade is needed to read it.

    title : of the scenario; severity : 1 to 4; band : index into BAND_WORDS
    """
    head = element(
        "tr", element("th", "Probability", scope="col"),
        *(element("th", element("span", "severity ", cls="off") + str(one), scope="col")
          for one in SEVERITIES))
    rows = [
        element("tr", element("th", escape(words), scope="row", cls="num"),
                *(_cell(MATRIX[one][place], one == severity, place - band)
                  for one in SEVERITIES))
        for place, words in enumerate(BAND_WORDS)]
    caption = element("caption", escape(f"{title}: {LEGEND}"))
    return element("table", caption, element("thead", head),
                   element("tbody", *rows), cls="matrix")


def _cell(letter, is_severity, away):
    """away : bands below the scenario's own"""
    mark = {0: "here", 1: "band", -1: "band"}.get(away, "") if is_severity else ""
    said = {"here": " this scenario", "band": " one band beside it"}.get(mark, "")
    return element("td", element("abbr", letter, title=LEVELS[letter]),
                   *([element("span", said, cls="off")] if said else []),
                   cls=" ".join(filter(None, (letter, mark))))
