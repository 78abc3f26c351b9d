"""Ferrite cores of mains chargers: standard sizes, and cross-sections from outside dimensions.

Sizes are of a set: overall width A, overall height 2B (an I core: leg and plate together), depth
C. The standard families are those of the IEC 63093 series.
"""
import re
from dataclasses import dataclass
from math import nan, pi

import numpy as np

# The place of a family in this list is stored with the evidence: append, never reorder.
FAMILIES = ("E", "EI", "EFD", "EPC", "ETD", "ER", "EQ", "RM", "PQ", "EP")

MAKER_U, COMPUTED_U = 0.03, 0.06     # relative, k = 1: catalogue figure, computed geometry
SAME_SIZE = 0.03                     # how far outside dimensions may lie from those of a row

COMPUTED = "Geometry by IEC 60205, computed with PyOpenMagnetics 1.7.35"
MEMORY = COMPUTED + "; maker's catalogue figures from memory."
EPCOS = COMPUTED + "; maker's figures: Siemens Matsushita/EPCOS B66413, EFD 15/8/5."
TDK = "TDK, ferrite cores for switching supplies, catalogue."
COMPUTED += "."


@dataclass(frozen=True, slots=True)
class Core:
    """One standard core set; NaN where no figure is at hand."""

    name: str
    family: str
    aliases: tuple[str, ...]
    width: float            # A [m]
    height: float           # 2B [m]
    depth: float            # C [m]
    computed_area: float    # A_e [m²]
    computed_length: float  # l_e [m]
    window_area: float      # one window of the core; a bobbin leaves 0.4 to 0.6 of it [m²]
    maker_area: float       # A_e [m²]
    maker_length: float     # l_e [m]
    source: str

    @property
    def area(self) -> float:
        """Effective area: the maker's figure where there is one. [m²]"""
        return self.computed_area if np.isnan(self.maker_area) else self.maker_area

    @property
    def area_u(self) -> float:
        """Standard uncertainty of `area`. [m²]"""
        return self.area * (COMPUTED_U if np.isnan(self.maker_area) else MAKER_U)

    @property
    def length(self) -> float:
        """Effective length, from the same source as the area. [m]"""
        return self.computed_length if np.isnan(self.maker_area) else self.maker_length

    @property
    def volume(self) -> float:
        """Effective volume V_e = A_e·l_e. [m³]"""
        return self.area * self.length


# Name, other names, A, 2B, C in mm; A_e in mm², l_e in mm, window in mm² as computed; A_e and l_e
# of the maker; source. The first letters of the name are the family.
_ROWS = (
    ("E 8.8/2", "", 9, 8, 1.9, 5.0, 15.7, 7.3, 5.0, 15.6, MEMORY),
    ("E 10/5.5/5", "EE10", 10.25, 11, 4.7, 11.6, 26.1, 22.7, 12.1, 26.1, MEMORY),
    ("E 12.7/6/6", "", 12.7, 11.4, 6.35, 20.2, 27.8, 26.0, nan, nan, COMPUTED),
    ("E 13/7/4", "EF12.6", 12.65, 12.8, 3.55, 12.4, 29.7, 26.3, 12.4, 29.7, MEMORY),
    ("E 13/6/6", "EE13", 13, 12, 6.15, 17.1, 30.2, 34.3, 17.1, 30.2, MEMORY),
    ("E 16/8/5", "EF16", 16.1, 16.1, 4.5, 20.1, 37.6, 41.6, 20.1, 37.6, MEMORY),
    ("E 16/7/5", "EE16", 16, 14.3, 4.8, 19.0, 35.0, 41.6, 19.2, 35.0, MEMORY),
    ("E 16/12/5", "EEL16", 16, 24.5, 4.85, 19.4, 55.3, 82.0, 19.4, 55.3, MEMORY),
    ("E 19/8/5", "EE19", 19, 16, 5, 23.0, 39.7, 56.0, 23.0, 39.4, MEMORY),
    ("E 20/10/6", "EF20", 20.1, 20, 5.65, 32.0, 46.4, 62.6, 32.0, 46.3, MEMORY),
    ("E 25/13/7", "EF25", 25.05, 25.1, 7.2, 51.8, 57.8, 95.3, 52, 58, MEMORY),
    ("E 25.4/6.3", "EE25", 25.4, 18.9, 6.3, 39.1, 48.2, 82.2, 40, 48.7, MEMORY),
    ("E 30/15/7", "", 30, 30, 7.05, 60.1, 65.6, 129.0, 60, 67, MEMORY),
    ("E 32/16/9", "EF32", 32.1, 32.2, 9.15, 83.2, 74.3, 161.0, 83, 74, MEMORY),
    ("EI 12.5", "", 12.4, 8.9, 4.85, nan, nan, 17.3, 14.4, 21.3, TDK),
    ("EI 16", "", 16, 14.2, 4.8, nan, nan, nan, 19.8, 34.6, TDK),
    ("EFD 10/5/3", "EFD10", 10.5, 10.4, 2.7, 7.2, 23.7, 11.6, 7.2, 23.7, MEMORY),
    ("EFD 12/6/3.5", "EFD12", 12.5, 12.4, 3.5, 11.4, 28.5, 16.4, 11.4, 28.5, MEMORY),
    ("EFD 15/8/5", "EFD15", 15, 15, 4.65, 15.1, 34.3, 31.3, 15, 34, EPCOS),
    ("EFD 20/10/7", "EFD20", 20, 20, 6.65, 30.7, 47.2, 50.1, 31, 47, MEMORY),
    ("EFD 25/13/9", "EFD25", 25, 25, 9.1, 57.5, 57.3, 67.9, 58, 57, MEMORY),
    ("EFD 30/15/9", "EFD30", 30, 30, 9.1, 69.3, 68.0, 87.4, 69, 68, MEMORY),
    ("EPC 13", "", 13.2, 13.2, 4.6, 12.5, 28.3, 22.1, 12.5, 30.6, MEMORY),
    ("EPC 17", "", 17.5, 17.1, 6, 21.3, 38.1, 39.9, 22.8, 40.2, MEMORY),
    ("EPC 25", "", 25.1, 25, 8, 41.5, 55.6, 82.4, 46.4, 59.2, MEMORY),
    ("EPC 30", "", 30.1, 35, 8, 56.9, 75.3, 111.8, 61, 81.6, MEMORY),
    ("RM 4", "", 11.2, 10.4, 8.15, 11.0, 20.5, 15.7, 13.8, 23, MEMORY),
    ("RM 5", "", 14.45, 10.4, 10.4, 20.5, 21.0, 18.2, 24.8, 23.2, MEMORY),
    ("RM 6/I", "RM6", 17.75, 12.4, 12.65, 30.8, 28.2, 26.2, 37, 29.2, MEMORY),
    ("RM 8/I", "RM8", 22.75, 16.4, 17.35, 63.4, 38.2, 49.4, 63, 38.4, MEMORY),
    ("RM 10", "RM10/I", 27.85, 18.6, 21.65, 83.9, 42.4, 69.5, 96.6, 44.6, MEMORY),
    ("PQ 20/16", "", 20.5, 16.2, 14, 64.3, 37.3, 47.4, 62, 37.5, MEMORY),
    ("PQ 20/20", "", 20.5, 20.2, 14, 63.8, 45.3, 65.8, 62.5, 45.6, MEMORY),
    ("PQ 26/20", "", 26.5, 20.2, 19, 123.2, 44.5, 60.4, 120, 45.7, MEMORY),
    ("PQ 26/25", "", 26.5, 24.8, 19, 122.6, 53.7, 84.5, 119, 54.9, MEMORY),
    ("PQ 32/20", "", 32, 20.5, 22, 157.4, 49.0, 80.8, 169, 55.7, MEMORY),
    ("PQ 32/30", "", 32, 30.3, 22, 155.4, 68.5, 149.6, 164, 74.6, MEMORY),
    ("EP 10", "", 11.5, 10.2, 7.7, 11.6, 19.3, 22.6, 11.3, nan, MEMORY),
    ("EP 13", "", 12.5, 12.8, 8.8, 19.9, 24.2, 26.0, 19.5, nan, MEMORY),
    ("ER 25.5", "EER25.5", 25.5, 18.6, 7.5, 44.5, 48.2, 79.4, 44.8, 48.2, MEMORY),
    ("ER 28", "EER28", 28.5, 28, 11.4, 86.6, 64.2, 113.3, 82, 64, MEMORY),
    ("EQ 25", "", 25, 16, 18, 99.8, 43.4, 56.6, nan, nan, COMPUTED),
    ("EQ 20 low", "EQ20", 20, 10, 14, 61.9, 28.9, 23.9, nan, nan, COMPUTED),
)


def _core(name, aliases, width, height, depth, area, length, window, maker_area, maker_length,
          source):
    mm, square = 1e-3, 1e-6
    return Core(name, name.split()[0], tuple(aliases.split()), width * mm, height * mm,
                depth * mm, area * square, length * mm, window * square, maker_area * square,
                maker_length * mm, source)


CORES = tuple(_core(*row) for row in _ROWS)


def _plain(name):
    return re.sub(r"[^A-Z0-9.]", "", name.upper())


_BY_NAME = {_plain(name): core for core in CORES for name in (core.name, *core.aliases)}


def find_core(name: str) -> Core | None:
    """The standard core of a name or an alias, however it is spaced; None for an unknown one."""
    return _BY_NAME.get(_plain(name))


@dataclass(frozen=True, slots=True)
class Family:
    """What cores of one shape have in common, as mean and standard deviation.

    outline : A_e over A·C; of RM cores over A²
    leg : A_e over F·C, F the width of the centre leg; of a round post over F²; None: not known
    volume : V_e over A·2B·C        length : l_e over A + 2B
    """

    name: str
    outline: tuple[float, float]
    leg: tuple[float, float] | None
    volume: tuple[float, float]
    length: tuple[float, float]
    round_post: bool = False


ROUND = (pi / 4, 0.06 * pi / 4)      # the post itself; the effective area lies 0 to 10 % above
# Statistics over the 8 to 36 mm wide shapes of the library PyOpenMagnetics 1.7.35. EPC, RM: the
# makers' values are higher than the library's. EI: the two rows of the table above, the rest as E;
# EP: the two rows alone. Spreads that the source leaves out: one tenth.
FAMILY = {family.name: family for family in (
    Family("E", (0.277, 0.024), (0.998, 0.05), (0.65, 0.04), (1.13, 0.09)),
    Family("EI", (0.249, 0.024), (0.998, 0.07), (0.65, 0.07), (1.13, 0.11)),
    Family("EFD", (0.253, 0.017), (0.57, 0.04), (0.58, 0.058), (1.14, 0.11)),
    Family("EPC", (0.23, 0.023), (0.52, 0.05), (0.46, 0.046), (1.10, 0.11)),
    Family("ETD", (0.278, 0.019), (0.83, 0.05), (0.62, 0.062), (1.18, 0.12)),
    Family("ER", (0.186, 0.05), ROUND, (0.58, 0.09), (0.97, 0.1), True),
    Family("EQ", (0.219, 0.043), ROUND, (0.56, 0.10), (1.03, 0.1), True),
    Family("RM", (0.12, 0.013), None, (0.59, 0.059), (0.90, 0.09)),
    Family("PQ", (0.223, 0.022), (0.52, 0.03), (0.53, 0.06), (0.97, 0.12)),
    Family("EP", (0.15, 0.03), None, (0.5, 0.1), (0.95, 0.1)),
)}
ANY = (0.24, 0.05)      # A_e over A·C of a core of unknown family, EP apart: 0.19 to 0.28


def _numbers(field):
    """(2, families + 1) mean and deviation by index of the family; last: the family unknown."""
    rows = [getattr(FAMILY[name], field) or (nan, nan) for name in FAMILIES]
    return np.array([*rows, ANY if field == "outline" else (nan, nan)]).T


_OUTLINE, _LEG = _numbers("outline"), _numbers("leg")
_SQUARE = np.array([name == "RM" for name in FAMILIES] + [False])
_ROUND_POST = np.array([FAMILY[name].round_post for name in FAMILIES] + [False])


def _window_shares():
    """(2, families + 1) window over A·2B, mean and deviation over the rows of the table."""
    shares = [[core.window_area / (core.width * core.height) for core in CORES
               if core.family == ("E" if name == "EI" else name)] for name in FAMILIES]
    found = [(np.mean(s), np.std(s, ddof=1)) if len(s) > 1 else (nan, nan) for s in shares]
    return np.array([*found, (nan, nan)]).T


_WINDOW = _window_shares()


def _index(family):
    """Index into the arrays above; the last one for an unknown family."""
    known = (family >= 0) & (family < len(FAMILIES))
    return np.where(known, family, len(FAMILIES)).astype(int)


def effective_area_from_dimensions(family, width, height, depth, centre_leg):
    r"""Effective cross-section of a core from its outside dimensions.

    Of the standard sizes, one of the same family with the same dimensions within 3 % counts;
    else the centre leg, :math:`A_e = k F C` or :math:`\pi F^2/4`; else the outline,
    :math:`A_e = k A C`, of RM cores :math:`k A^2`.

    Parameters
    ----------
    family : (n,) float
        Place in FAMILIES; NaN or none of them: unknown. [1]
    width : (n,) float
        Overall width A. [m]
    height : (n,) float
        Overall height 2B of the set; NaN where it was not measured. [m]
    depth : (n,) float
        Depth C. [m]
    centre_leg : (n,) float
        Width or diameter F of the centre leg; NaN where it was not measured. [m]

    Returns
    -------
    (2, n) float
        Area and its standard uncertainty; NaN where width or depth is NaN. [m²]

    Errors
    ------
    Formula: 3 % (maker's figure), 6 % (computed row, round post), 5 to 10 % (centre leg), 7 to
    27 % (outline); 21 % of an unknown family.

    Examples
    --------
    >>> area, u = effective_area_from_dimensions(0.0, 16e-3, 14.3e-3, 4.8e-3, np.nan)
    >>> round(float(area) * 1e6, 1), round(float(u) * 1e6, 2)
    (19.2, 0.58)

    References
    ----------
    .. [1] Statistics over the core shapes of the library PyOpenMagnetics 1.7.35.
    """
    family, width, height, depth, centre_leg = np.broadcast_arrays(
        *(np.asarray(part, float) for part in (family, width, height, depth, centre_leg)))
    index = _index(family)
    outline = width * np.where(_SQUARE[index], width, depth) + 0 * depth
    leg = centre_leg * np.where(_ROUND_POST[index], centre_leg, depth) + 0 * depth
    by_leg, by_outline = _LEG[:, index] * leg, _OUTLINE[:, index] * outline
    found = np.where(np.isnan(by_leg), by_outline, by_leg)
    row = same_size(family, width, height, depth)
    listed = np.array([(core.area, core.area_u) for core in CORES] + [(nan, nan)]).T[:, row]
    return np.where(np.isnan(listed), found, listed)


def window_from_dimensions(family, width, height, depth):
    r"""Window of a core from its outside dimensions.

    Of a standard size its own, else :math:`A_w = k \cdot A \cdot 2B` with the mean share of the
    standard sizes of its family.

    Parameters
    ----------
    family : (n,) float
        Place in FAMILIES; NaN or none of them: unknown. [1]
    width : (n,) float
        Overall width A. [m]
    height : (n,) float
        Overall height 2B of the set. [m]
    depth : (n,) float
        Depth C; NaN where it was not measured. [m]

    Returns
    -------
    (2, n) float
        One window and its standard uncertainty; NaN where it is not known. [m²]

    Errors
    ------
    Formula: 6 % (standard size), 6 to 20 % (share of the outline).

    Examples
    --------
    >>> window, u = window_from_dimensions(0.0, 16.1e-3, 16.1e-3, 4.5e-3)
    >>> round(float(window) * 1e6, 1)
    41.6

    References
    ----------
    .. [1] Windows of the standard sizes in this file, their share of the outline.
    """
    family, width, height, depth = np.broadcast_arrays(
        *(np.asarray(part, float) for part in (family, width, height, depth)))
    found = _WINDOW[:, _index(family)] * (width * height)
    row = same_size(family, width, height, depth)
    listed = np.array([core.window_area for core in CORES] + [nan])[row]
    return np.where(np.isnan(listed), found, np.stack([listed, COMPUTED_U * listed]))


def same_size(family, width, height, depth):
    """(n,) int: the place in CORES of the same family and dimensions within 3 %; else the length
    of CORES."""
    row = np.full(np.shape(width), len(CORES))
    known = ~np.isnan(family + width + height + depth)
    row[known] = _nearest(family[known], width[known], height[known], depth[known])
    return row


def _nearest(family, width, height, depth):
    best, row = np.full(len(width), SAME_SIZE), np.full(len(width), len(CORES))
    for place, core in enumerate(CORES):
        far = np.maximum(np.abs(width / core.width - 1), np.abs(height / core.height - 1))
        far = np.maximum(far, np.abs(depth / core.depth - 1))
        better = (far <= best) & (family == FAMILIES.index(core.family))
        best, row = np.where(better, far, best), np.where(better, place, row)
    return row


def core_mass(volume):
    r"""Mass of a ferrite core set.

    .. math:: m = 1.2\,\rho V_e, \quad \rho = 4.8\ \mathrm{g/cm^3}

    Parameters
    ----------
    volume : (n,) float
        Effective volume. [m³]

    Returns
    -------
    (n,) float
        Mass of the set. [kg]

    Errors
    ------
    Formula: 8 % (k = 1), by what the corners hold beside the effective volume.

    Examples
    --------
    >>> round(float(core_mass(510e-9)) * 1e3, 2)
    2.94

    References
    ----------
    .. [1] Factor from EFD 15/8/5, 2.8 g (EPCOS B66413), and EI 12.5, 1.9 g (TDK catalogue).
    """
    return 1.2 * 4800.0 * volume
