"""What parts the mains side from the output in a transformer, layer by layer.

A layer lies between two windings, or between a winding and the core, which is metal. Of windings
that follow each other from the core outward, one on the mains side and one of the output are
neighbours; what was recorded between them is counted at two ends. At the demanding end only what
was seen intact counts; at the lenient end also what is damaged; what melted counts at neither.
Where something was not read, nobody knows how much there is at most.
"""
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from .requirements.solid_insulation import THICKNESS
from .requirements.winding_insulation import (
    APPARENT,
    DOCUMENTED,
    DOUBTFUL,
    NONE,
    THICKNESS_U,
    could_be_solid,
)
from .subjects import Subjects, SubjectTable

CORE, OUTPUT, SHIELD = "core", "secondary", "shield"
MAINS = ("primary", "auxiliary")
INSULATED = ("triple", "fully", "insulated")     # may be more than enamel
COUNTED = ("triple", "fully")                    # as reinforced insulation, where it is documented
PLAIN = ("enamel", "bare", "single")             # count as nothing, or as basic at most
ONE_PIECE = ("bobbin", "sheet", "sleeve")        # one layer each, where nobody counted
TAPE = ("", "tape")
THIN = 0.2e-3       # m, of one layer of tape at most (common practice, no source)
OF_SHEETS = ("state", "material", "damage", "tape_layers", "thickness", "withstood")


@dataclass(frozen=True, slots=True)
class _Items:
    """Layers and, before and after those of each unit, its core: (k,) each, outward.

    layer : place in the table; −1 the core
    role : of a conductor, "" of others
    wire : what a conductor's own insulation counts for; "" where it is not known
    space : of a conductor the space that begins behind it, of others the one in which they lie
    broken : nobody described the place before this one
    """

    layer: np.ndarray
    row: np.ndarray
    conductor: np.ndarray
    role: np.ndarray
    wire: np.ndarray
    space: np.ndarray
    broken: np.ndarray


@dataclass(frozen=True, slots=True)
class _Spaces:
    """What lies between two conductors that follow each other: (s,) each."""

    low: np.ndarray             # layers that count at most; NaN where nobody knows
    high: np.ndarray            # layers that certainly count
    blind: np.ndarray           # not everything was read
    solid: np.ndarray           # thickest layer that certainly counts; NaN where it is not known
    withstood: np.ndarray       # by each layer alone; NaN where one was not tested
    noted: np.ndarray           # of each layer somebody said whether it is intact


def adjacencies(layers: SubjectTable) -> SubjectTable:
    """The neighbourhoods of a mains-side and an output-side conductor, sorted by unit.

    The core and a shield count as parts of the mains side, see `_beside_core`, `_beyond_shields`.
    """
    items = _items(layers)
    spaces = _spaces(layers, items)
    ends = np.flatnonzero(items.conductor)
    inner, outer = ends[:-1], ends[1:]
    met = ((items.row[inner] == items.row[outer])
           & ((items.role[inner] == OUTPUT) != (items.role[outer] == OUTPUT)))
    return _table(layers, items, spaces, inner[met], outer[met])


def between(subjects: Subjects, at: int) -> list[int]:
    """Evidence ids of all layers from one side of a neighbourhood to the other, outward.

    at : place in the table of neighbourhoods
    """
    near, layers = subjects["adjacency"], subjects["layer"]
    mine = np.flatnonzero(layers.row == near.row[at])
    mine = mine[np.argsort(layers.columns["position"][mine], kind="stable")]
    ids = layers.evidence_id[mine].tolist()
    first, last = (near.columns[name][at] for name in ("inner_id", "outer_id"))
    start = 0 if np.isnan(first) else ids.index(int(first))
    stop = len(ids) if np.isnan(last) else ids.index(int(last)) + 1
    return ids[start:stop]


def _items(layers: SubjectTable) -> _Items:
    units = np.unique(layers.row)
    rim = np.full(len(units), np.inf)
    place = np.concatenate([layers.columns["position"], -rim, rim])
    row = np.concatenate([layers.row, units, units])
    order = np.lexsort((place, row))
    layer = np.concatenate([np.arange(len(layers.row)), np.full(2 * len(units), -1)])[order]
    # What was looked for and not found parts nothing and conducts nothing, but takes its place.
    wound = (layers.columns["kind"] == "winding") & (layers.columns["state"] != "not_found")
    conductor = _at(wound, layer, True)
    step = np.diff(place[order], prepend=np.nan)
    return _Items(
        layer, row[order], conductor, _at(np.where(wound, layers.columns["winding"], ""), layer,
                                          CORE),
        _at(_wire(layers.columns), layer, NONE), np.cumsum(conductor) - 1,
        np.isfinite(step) & (step != 1))


def _at(column, layer, core):
    """(k,) a column of the layers at each item, with what stands for the core."""
    return np.where(layer < 0, core, column[layer]) if len(column) else np.full(len(layer), core)


def _wire(own) -> np.ndarray:
    more = np.isin(own["wire_insulation"], INSULATED)
    documented = more & (own["documented"] == 1)
    proven = documented & np.isin(own["wire_insulation"], COUNTED) & (own["damage"] != "damaged")
    return np.select(
        [own["state"] != "recorded", own["damage"] == "melted", proven, documented, more,
         np.isin(own["wire_insulation"], PLAIN)],
        ["", NONE, DOCUMENTED, DOUBTFUL, APPARENT, NONE], "")


def _spaces(layers: SubjectTable, items: _Items) -> _Spaces:
    count = int(items.conductor.sum())
    inside = np.flatnonzero(~items.conductor)
    space = items.space[inside]
    own = {name: layers.columns[name][items.layer[inside]] for name in OF_SHEETS}
    recorded, melted = own["state"] == "recorded", own["damage"] == "melted"
    pieces = np.where(np.isnan(own["tape_layers"]) & np.isin(own["material"], ONE_PIECE), 1.0,
                      own["tape_layers"])
    read = (own["state"] == "not_found") | recorded & (melted | ~np.isnan(pieces))
    counts = recorded & read & ~melted
    # A sleeve lies on leads; whether it parts the windings as well, nobody said.
    certain = counts & (own["damage"] != "damaged") & (own["material"] != "sleeve")
    thick = _thickness(own, pieces)
    place = layers.columns["position"][items.layer[inside]]
    high = _once_a_place(space, place, np.where(certain, pieces, 0.0))
    blind = _any(space, count, ~read)
    blind[items.space[np.flatnonzero(items.broken) - 1]] = True
    open_end = blind | _any(space, count, counts & ~certain & could_be_solid(thick))
    bobbin = _any(space, count, recorded & (own["material"] == "bobbin"))
    unknown = _beside_core(items, bobbin)
    low = np.where(open_end | unknown, np.nan,
                   np.bincount(space, np.where(counts, pieces, 0.0), count))
    solid = _thickest(space, count, np.where(certain, thick, 0.0))
    return _Spaces(
        _beyond_shields(items, low, solid), np.bincount(space, high, count), blind | unknown,
        solid, _lowest(space, count, own["withstood"], high > 0),
        ~_any(space, count, counts & (own["damage"] == "")))


def _thickness(own, pieces):
    """Of a single layer; tape that nobody measured is thin (common practice, no source). Thicker
    tape than any is several turns measured together, or a slip: nobody knows its own."""
    tape = np.isin(own["material"], TAPE)
    thin = np.isnan(own["thickness"]) & tape & ~np.isnan(pieces)
    return np.select([thin, tape & (own["thickness"] > THIN)], [0.0, np.nan], own["thickness"])


def _once_a_place(space, place, pieces):
    """Of layers at one place, as of two transformers in one record, the fewest certainly count."""
    begins = np.flatnonzero((np.diff(space, prepend=-1) != 0) | (np.diff(place, prepend=-1) != 0))
    made = np.zeros(len(pieces))
    if len(begins):
        made[begins] = np.minimum.reduceat(pieces, begins)
    return made


def _any(space, count, flags):
    return np.bincount(space, flags, count) > 0


def _thickest(space, count, thickness):
    """0 where there is nothing; NaN where an unknown one might be the thickest."""
    most = np.zeros(count)
    np.maximum.at(most, space, np.nan_to_num(thickness))
    unknown = _any(space, count, np.isnan(thickness)) & (most < THICKNESS + THICKNESS_U)
    return np.where(unknown, np.nan, most)


def _lowest(space, count, withstood, counts):
    """Of the layers that count; NaN where one of them was not tested."""
    least = np.full(count, np.inf)
    np.minimum.at(least, space[counts], np.nan_to_num(withstood[counts], nan=-1.0))
    return np.where(np.isinf(least) | (least < 0), np.nan, least)


def _beside_core(items: _Items, bobbin) -> np.ndarray:
    """Where nobody knows how much lies beside the core: inside a bobbin's wall, which is seldom
    recorded as a layer, outside the air under its legs."""
    core = items.role[items.conductor] == CORE
    return core & ~bobbin | np.append(core[1:], True)


def _beyond_shields(items: _Items, low, solid) -> np.ndarray:
    """At the lenient end a shield belongs to the output: then what lies beyond it parts mains and
    output too, and where nothing of the mains lies beyond it nothing is required."""
    role, wire = items.role[items.conductor], items.wire[items.conductor]
    shields, made = np.flatnonzero(role == SHIELD), low.copy()
    for side in (-1, 1):                            # the output lies inside, outside of the shield
        at = shields[role[shields + side] == OUTPUT]
        own, beyond = (at - 1, at) if side < 0 else (at, at - 1)
        closed = (np.isin(role[at - side], MAINS) & (wire[at - side] == NONE)
                  & ~could_be_solid(solid[beyond]))
        made[own] = np.where(closed, low[own] + low[beyond], np.nan)
    return made


def _table(layers, items, spaces, inner, outer) -> SubjectTable:
    a, b, space = items.layer[inner], items.layer[outer], items.space[inner]
    own, wires = layers.columns, (items.wire[inner], items.wire[outer])
    ids = layers.evidence_id.astype(float)

    def both(name, core=np.nan):
        return _at(own[name], a, core), _at(own[name], b, core)

    columns = {
        "inner": items.role[inner], "outer": items.role[outer],
        "layers_low": spaces.low[space], "layers_high": spaces.high[space],
        "solid_thickness": spaces.solid[space], "layer_withstood": spaces.withstood[space],
        "insulated_wire": _better(*wires),
        "traced": ((wires[0] != "") & (wires[1] != "") & ~spaces.blind[space]).astype(float),
        "margin_left_sum": np.add(*both("margin_left")),
        "margin_right_sum": np.add(*both("margin_right")),
        "edges_photographed": np.fmin(*both("photographed")),
        "inner_id": _at(ids, a, np.nan), "outer_id": _at(ids, b, np.nan),
        "condition_noted": np.where(spaces.noted[space], 1.0, np.nan),
    }
    named = columns["inner"], columns["outer"], *both("position", -1.0)
    label = [_label(*pair) for pair in zip(*(part.tolist() for part in named), strict=True)]
    return SubjectTable("adjacency", items.row[inner], columns, np.array(label, dtype=object),
                        np.full(len(inner), -1, np.int64))


def _better(one, other):
    """The better insulated of two wires counts; "" where an unread one might be better."""
    found = np.where((one == NONE) & (other == NONE), NONE, "")
    for kind in (APPARENT, DOUBTFUL, DOCUMENTED):
        found = np.where((one == kind) | (other == kind), kind, found)
    return found


@lru_cache(maxsize=4096)        # most transformers are wound alike
def _label(inner, outer, first, last):
    """ "primary to secondary, layers 1 and 3"; the core has no place """
    known = [f"{place:g}" for place in (first, last) if place >= 0]
    return f"{inner} to {outer}, layer{'s' * (len(known) > 1)} {' and '.join(known)}"
