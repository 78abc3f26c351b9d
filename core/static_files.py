"""Static files under hashed names, so that browsers may keep them for ever."""
from whitenoise.storage import CompressedManifestStaticFilesStorage


class HashedStaticFiles(CompressedManifestStaticFilesStorage):
    """Rewrites `import` paths in ES modules too."""

    support_js_module_import_aggregation = True
