"""What the three grades mean to a reader."""
from django.utils.safestring import mark_safe

from teardowns.figures.marks import grade_mark

GRADE_WORDS = tuple((mark_safe(grade_mark(grade)), meaning) for grade, meaning in (
    ("meets", "The observation clears the figure at the demanding end, with its whole uncertainty. "
              "No shorter path or worse value was recorded."),
    ("falls short", "The observation misses the figure at the lenient end, with its whole "
                    "uncertainty: so it does under every documented assumption."),
    ("cannot tell", "The evidence does not decide: nothing was recorded, it could not be read, or "
                    "the answer depends on the uncertainty or on what is assumed."),
))
