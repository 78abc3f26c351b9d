from django.apps import AppConfig


class CoreConfig(AppConfig):
    name = "core"

    def ready(self):
        from django.db.models.signals import post_migrate, pre_migrate
        from django_q.signals import post_execute_in_worker, pre_execute

        from core import checks  # noqa: F401  (registers itself)
        from core.jobs_given_up import count_start
        from core.leased_jobs import begin, end
        from core.migrating import wait_as_ever, wait_briefly

        pre_migrate.connect(wait_briefly, self, dispatch_uid="wait_briefly")
        post_migrate.connect(wait_as_ever, self, dispatch_uid="wait_as_ever")
        pre_execute.connect(begin, dispatch_uid="begin")      # first: only what begins is counted
        post_execute_in_worker.connect(end, dispatch_uid="end")
        pre_execute.connect(count_start, dispatch_uid="count_start")
