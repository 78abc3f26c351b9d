"""Where a test's files lie: a storage each below one folder, the static files as they are."""

FILES = ("default", "originals", "pictures", "channels", "printouts", "exports")


def storages_below(folder):
    """For `settings.STORAGES`: no hashed file names to collect, private folders for files."""
    return {
        "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
        **{name: {"BACKEND": "core.durable_storage.DurableStorage",
                  "OPTIONS": {"location": folder / name, "base_url": None}} for name in FILES},
    }
