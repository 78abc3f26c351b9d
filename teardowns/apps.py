from django.apps import AppConfig
from django.db.models.signals import post_migrate


class TeardownsConfig(AppConfig):
    name = "teardowns"

    def ready(self):
        from core.accounts.services.delete_account import account_deleted
        from teardowns.schedules import keep_schedules
        from teardowns.search_engines import install_after_migrating
        from teardowns.services.forget_searches import forget_searches
        from teardowns.services.repeat_covers import register_erasures

        post_migrate.connect(keep_schedules, sender=self, dispatch_uid="schedules")
        post_migrate.connect(install_after_migrating, sender=self, dispatch_uid="search")
        account_deleted.connect(forget_searches, dispatch_uid="searches")
        register_erasures()
