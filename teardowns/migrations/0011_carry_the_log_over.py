"""The old log goes into the chain, in its order; what was public waits for its first version."""
from django.db import migrations

from core.audit.chain import BEGINNING, HASHED, entry_hash

# The reason has a field of its own; what people typed stands in the histories, which can be erased.
APART = {"reason", "caption", "alt", "instrument"}


def carry_over(apps, editor):
    """Safe on a log that has entries already: it goes on where that ends."""
    old, entry = (apps.get_model(*name) for name in (
        ("teardowns", "AuditEntry"), ("audit", "Entry")))
    head, _ = apps.get_model("audit", "Head").objects.get_or_create(
        pk=1, defaults={"sequence": 0, "hash": BEGINNING})
    roles = dict(apps.get_model("accounts", "User").objects.values_list("pk", "role"))
    for row in old.objects.order_by("pk").iterator():
        made = entry(
            sequence=head.sequence + 1, at=row.at, actor_id=row.actor_id,
            role=roles.get(row.actor_id, ""), in_role=False, action=row.action,
            unit=row.unit_id, subject="", reason=row.detail.get("reason", ""), request_id="",
            detail={name: value for name, value in row.detail.items() if name not in APART},
            previous=head.hash)
        made.hash = entry_hash({name: getattr(made, name) for name in HASHED})
        made.save()
        head.sequence, head.hash = made.sequence, made.hash
    head.save()


def await_versions(apps, editor):
    """A unit is public by its version alone; a moderator publishes these once more."""
    apps.get_model("teardowns", "Unit").objects.filter(
        status="published", publication=None).update(status="in_review")


class Migration(migrations.Migration):
    dependencies = [("teardowns", "0010_add_community"), ("audit", "0002_guard_entries")]
    operations = [
        migrations.RunPython(carry_over, migrations.RunPython.noop),
        migrations.RunPython(await_versions, migrations.RunPython.noop),
        migrations.DeleteModel("AuditEntry"),
    ]
