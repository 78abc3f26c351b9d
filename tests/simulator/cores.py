"""Ferrite core sets that can be bought: dimensions and effective values of catalogues.

Families of IEC 63093; A_e, l_e as makers print them (from memory), window as computed by the
method of IEC 60205.
"""
import numpy as np

# A × 2B × C [mm], A_e [mm²], l_e [mm], window [mm²], centre leg width F or diameter [mm]
_SETS = {
    "E": (
        ("EE10", 10.25, 11.0, 4.7, 12.1, 26.1, 23, 2.6),
        ("EF12.6", 12.65, 12.8, 3.55, 12.4, 29.7, 26, 3.55),
        ("EE13", 13.0, 12.0, 6.15, 17.1, 30.2, 34, 2.8),
        ("EE16", 16.0, 14.3, 4.8, 19.2, 35.0, 42, 4.0),
        ("EF16", 16.1, 16.1, 4.5, 20.1, 37.6, 42, 4.5),
        ("EEL16", 16.0, 24.5, 4.85, 19.4, 55.3, 82, 4.0),
        ("EE19", 19.0, 16.0, 5.0, 23.0, 39.4, 56, 4.6),
        ("EF20", 20.1, 20.0, 5.65, 32.0, 46.3, 63, 5.7),
        ("EE25", 25.4, 18.9, 6.3, 40.0, 48.7, 82, 6.3),
        ("EF25", 25.05, 25.1, 7.2, 52.0, 58.0, 95, 7.2),
        ("E30", 30.0, 30.0, 7.05, 60.0, 67.0, 129, 7.0),
        ("EF32", 32.1, 32.2, 9.15, 83.0, 74.0, 161, 9.1),
    ),
    "EFD": (
        ("EFD12", 12.5, 12.4, 3.5, 11.4, 28.5, 16, 5.4),
        ("EFD15", 15.0, 15.0, 4.65, 15.0, 34.0, 31, 5.3),
        ("EFD20", 20.0, 20.0, 6.65, 31.0, 47.0, 50, 8.9),
        ("EFD25", 25.0, 25.0, 9.1, 58.0, 57.0, 68, 11.4),
        ("EFD30", 30.0, 30.0, 9.1, 69.0, 68.0, 87, 14.6),
    ),
    "RM": (
        ("RM5", 14.45, 10.4, 6.6, 24.8, 23.2, 18, 4.9),
        ("RM6", 17.75, 12.4, 8.0, 37.0, 29.2, 26, 6.3),
        ("RM8", 22.75, 16.4, 10.8, 63.0, 38.4, 49, 8.4),
        ("RM10", 27.85, 18.6, 13.2, 96.6, 44.6, 70, 10.7),
    ),
    "PQ": (
        ("PQ20/16", 20.5, 16.2, 14.0, 62.0, 37.5, 47, 8.8),
        ("PQ20/20", 20.5, 20.2, 14.0, 62.5, 45.6, 66, 8.8),
        ("PQ26/20", 26.5, 20.2, 19.0, 120.0, 45.7, 60, 12.0),
        ("PQ26/25", 26.5, 24.8, 19.0, 119.0, 54.9, 85, 12.0),
        ("PQ32/20", 32.0, 20.5, 22.0, 169.0, 55.7, 81, 13.5),
    ),
}
FAMILIES = tuple(_SETS)
NAMES = tuple(one[0] for sets in _SETS.values() for one in sets)
FAMILY = np.repeat(np.arange(len(FAMILIES)), [len(sets) for sets in _SETS.values()])
WIDTH, HEIGHT, DEPTH, AREA, LENGTH, WINDOW, LEG = (
    np.array(column) * unit for column, unit in zip(
        zip(*(one[1:] for sets in _SETS.values() for one in sets), strict=True),
        (1e-3, 1e-3, 1e-3, 1e-6, 1e-3, 1e-6, 1e-3), strict=True))
VOLUME = AREA * LENGTH
MASS = 1.2 * 4800 * VOLUME          # kg; dense ferrite, and the corners that carry no field
ROUND = np.isin(FAMILY, [FAMILIES.index("RM"), FAMILIES.index("PQ")])
# Mean turn of the bobbins that go with them: 33 mm for EF16, 52 mm for EF25, 42 mm for RM8.
TURN = np.where(ROUND, 5.4, 7.3) * np.sqrt(AREA)
