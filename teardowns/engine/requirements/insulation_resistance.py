"""Insulation resistance between the mains pins and the output."""
from .table import Table

FIGURES = Table(
    "Insulation resistance at 500 V d.c.", ("MΩ from", "Standard"),
    ((2, "VDE 0701-0702, class II; basic insulation of IEC 60065 and IEC 61558-1"),
     (4, "IEC 60065, reinforced insulation"), (7, "IEC 61558-1, reinforced insulation")),
    "2 MΩ: a tester's manual; 4 and 7 MΩ from memory.", "C")
LOW, _, HIGH = 1e6 * FIGURES.column(0)      # Ω
