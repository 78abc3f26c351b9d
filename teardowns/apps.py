from django.apps import AppConfig
from django.db.models.signals import post_migrate


class TeardownsConfig(AppConfig):
    name = "teardowns"

    def ready(self):
        from teardowns.schedules import keep_schedules

        post_migrate.connect(keep_schedules, sender=self, dispatch_uid="schedules")
