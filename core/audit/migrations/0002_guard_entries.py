"""From here on the database itself refuses to change or remove an entry of the log."""
from django.db import migrations

from core.audit import triggers


class Migration(migrations.Migration):
    dependencies = [("audit", "0001_initial")]
    operations = [migrations.RunPython(
        lambda apps, editor: triggers.install(editor.connection),
        lambda apps, editor: triggers.remove(editor.connection))]
