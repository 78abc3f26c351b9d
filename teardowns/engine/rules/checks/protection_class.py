"""Class II is a promise of double insulation: it has no earth, and a two-pin plug needs it."""
from teardowns.engine.mathml import equation, word
from teardowns.engine.outcome import CANNOT_TELL, CONSISTENT, INCONSISTENT, Outcome
from teardowns.engine.rule import check

TWO_PIN = ("europlug", "nema1")
EARTHED = ("nema5",)


@check(
    on="unit",
    title="Class II mark and plug",
    source="IEC 62368-1:2018, F.3.6, symbol IEC 60417-5172; a marking page of a certifier.",
    validity="Marks as printed, where they were read. An earth pin that is connected to nothing is "
             "not told from one that is.",
    formula=equation(word("two pins: class II")),
    optional=("all_faces_photographed",),
)
def protection_class(plug, marks, all_faces_photographed):
    if not plug or not marks:
        return None
    has_mark = " class_ii " in marks
    if plug in TWO_PIN:
        if has_mark:
            return Outcome(CONSISTENT, "The class II mark fits a plug of two pins.")
        said = "The plug has two pins, and the class II mark is not among the marks that were read."
        if all_faces_photographed == 1:
            return Outcome(INCONSISTENT, f"{said} All outside faces were photographed.")
        return Outcome(CANNOT_TELL, f"{said} Not all outside faces were photographed.")
    if plug in EARTHED and has_mark:
        return Outcome(CANNOT_TELL, "The class II mark stands beside a plug with an earth pin: "
                                    "whether the pin is connected was not recorded.")
    return None
