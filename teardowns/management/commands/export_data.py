"""Write the bulk data now, at once."""
from django.core.management.base import BaseCommand

from teardowns.models import Publication
from teardowns.services.export_data import begin_export, export_slice, finish_export


class Command(BaseCommand):
    help = "Make the file of all public records, if something changed since the last."

    def handle(self, *args, **options):
        export = begin_export()
        if export is None:
            self.stdout.write("Nothing changed since the last file: it stands.")
            return
        total, after = Publication.objects.current().count(), 0
        while after is not None:
            after = export_slice(export, after)
            self.stdout.write(f"\r{export.units} of {total} records", ending="")
            self.stdout.flush()
        finish_export(export)
        self.stdout.write(f"\n{export.path}: {export.byte_size} bytes, SHA-256 {export.sha256}")
