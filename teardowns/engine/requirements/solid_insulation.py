"""What solid insulation has to be: thickness of one layer, number of thin ones."""
from .table import Table

THICKNESS = 0.4e-3          # m, of one solid layer; supplementary or reinforced insulation
SHEETS = 3                  # any two of which withstand the test together
LEGACY_THICKNESS = Table(
    "Solid insulation by IEC 61558-1", ("Mains up to, V", "solid layer, mm", "thin layers, mm"),
    ((150, 0.5, 0.15), (300, 1.0, 0.3)),
    "IEC 61558-1, table 22, reinforced; read in one open-source library. Only where the unit names "
    "that standard.", "B")
THIN_SHEETS = Table(
    "Thin sheets across the barrier", ("Layers", "Reinforced insulation is possible"),
    ((0, "only with a solid layer or certified insulated wire"),
     (1, "never from tape alone"), (2, "if each alone withstands the test voltage"),
     (3, "if any two together withstand the test voltage")),
    "IEC 62368-1:2018, 5.4.4.6; IEC 60950-1, 2.10.5.6 and 2.10.5.7, wording read in a forum and a "
    "product-safety list.", "A")
SOLID = Table(
    "Thickness of one solid layer", ("Insulation", "mm"),
    (("basic, functional", 0.0), ("supplementary, reinforced", 0.4)),
    "IEC 62368-1:2018, 5.4.4.2; IEC 60950-1, 2.10.5.2; three test reports on chargers print 0.4.",
    "A")
