"""Keep what was typed into a section that could not be saved, as it was typed."""
from teardowns.models import Unit, UnsavedSection

NOT_KEPT = ("csrfmiddlewaretoken", "keep")


def keep_typed(unit: Unit, contributor, section: str, typed: dict[str, str]) -> UnsavedSection:
    fields = {name: text for name, text in typed.items() if name not in NOT_KEPT}
    unsaved, _ = UnsavedSection.objects.update_or_create(
        unit=unit, section=section, author=contributor, defaults={"fields": fields}
    )
    return unsaved


def discard_typed(unit: Unit, contributor, section: str) -> None:
    UnsavedSection.objects.filter(unit=unit, section=section, author=contributor).delete()
