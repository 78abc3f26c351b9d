"""What a subject's checks find, for a test to look at."""
from django.utils.module_loading import autodiscover_modules

from core.doctor.findings import Level, examine

autodiscover_modules("doctor")
BAD = (Level.WARNING, Level.FAULT)


def found(subject):
    """(level, words) of each finding."""
    return [(each.level, each.said) for each in examine([subject])]


def bad(subject):
    """The words of warnings and faults; each of these names a remedy."""
    findings = [each for each in examine([subject]) if each.level in BAD]
    assert all(each.remedy for each in findings)
    return " ".join(each.said for each in findings)
