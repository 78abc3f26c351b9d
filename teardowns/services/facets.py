"""The facets and orders by which public units are found: what each reads, and its words."""
from __future__ import annotations

from teardowns.browsing.facets import NONE, Bands, Facet, each_of, if_any, one_of
from teardowns.engine.findings import HARMFUL
from teardowns.engine.risk import ORDER
from teardowns.engine.rule import HAZARDS
from teardowns.engine.verdicts import WORDS
from teardowns.exchange.listing_facts import TOPOLOGIES
from teardowns.models import Channel, Connector, Kind

POWER = {"0-10": "up to 10 W", "10-20": "over 10 to 20 W", "20-30": "over 20 to 30 W",
         "30-65": "over 30 to 65 W", "65-100": "over 65 to 100 W", "100-": "over 100 W"}
POWER_ENDS = (10.0, 20.0, 30.0, 65.0, 100.0)                      # W
SHARES = {"0-50": "up to half of what is asked", "50-75": "over half to three quarters",
          "75-90": "over 75 to 90 %", "90-": "over 90 %"}
SHARE_ENDS = (0.5, 0.75, 0.9)
LEVELS = tuple(level or NONE for level in ORDER)


def _worst_first(levels):
    return {level: level for level in reversed(levels) if level != NONE}


FACETS = {facet.code: facet for facet in (
    Facet("claimed", "Claimed power", "claimed_power", Bands(POWER_ENDS, tuple(POWER)),
          POWER | {NONE: "no power claimed"}),
    Facet("measured", "Measured power", "measured_power", Bands(POWER_ENDS, tuple(POWER)),
          POWER | {NONE: "not measured"}),
    Facet("verdict", "Verdict", "verdict", one_of,
          {word: word for word in (*WORDS[1:], WORDS[0])} | {NONE: "no claim to judge"}),
    Facet("risk", "Risk", "risk", lambda number: (LEVELS[number],),
          _worst_first(LEVELS) | {NONE: "no finding with a level"}),
    Facet("hazard", "Hazard", "hazards", each_of,
          {code: HAZARDS[code] for code in HARMFUL} | {NONE: "no finding"}),
    Facet("connector", "Connector", "connectors", each_of,
          dict(Connector.choices) | {NONE: "no port recorded"}),
    Facet("topology", "Power stage", "topology", one_of,
          TOPOLOGIES | {NONE: "not identified"}),
    Facet("controller", "Primary controller", "controller", if_any, has_many=True),
    Facet("channel", "Where obtained", "channel", one_of, dict(Channel.choices)),
    Facet("kind", "Kind", "kind", one_of, dict(Kind.choices)),
    Facet("year", "Year obtained", "year", lambda year: (str(year) if year else NONE,),
          {NONE: "not stated"}),
    Facet("completeness", "Completeness of the evidence", "completeness",
          Bands(SHARE_ENDS, tuple(SHARES)), SHARES | {NONE: "not known"}),
    Facet("family", "Board family", "families", tuple, has_many=True),
)}
# Name → the column that it sorts by, largest first; units without it come last.
SORTS = {"newest": "published_at", "risk": "risk", "gap": "gap", "reach": "reach",
         "completeness": "completeness"}
COLUMNS = tuple(dict.fromkeys([facet.column for facet in FACETS.values()] + list(SORTS.values())))
LISTS = ("connectors", "hazards", "families")
