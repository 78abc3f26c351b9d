from django.apps import AppConfig


class TeardownsConfig(AppConfig):
    name = "teardowns"
