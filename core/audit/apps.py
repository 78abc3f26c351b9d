from django.apps import AppConfig


class AuditConfig(AppConfig):
    name = "core.audit"
    label = "audit"

    def ready(self):
        from core.audit import checks  # noqa: F401  (registers itself)
