from django.apps import AppConfig


class CoreConfig(AppConfig):
    name = "core"

    def ready(self):
        from django_q.signals import pre_execute

        from core import checks  # noqa: F401  (registers itself)
        from core.jobs_given_up import count_start

        pre_execute.connect(count_start, dispatch_uid="count_start")
