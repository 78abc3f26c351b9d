"""Files of a form, written to the disk as they arrive; one that is too large is left aside."""
from django.core.files.uploadhandler import SkipFile, TemporaryFileUploadHandler

from teardowns.imaging.limits import MAX_BYTES


class LimitedUpload(TemporaryFileUploadHandler):
    """Keeps the other files of a submission; `too_large` names those that went over the limit."""

    def __init__(self, request=None, most_bytes=None):
        super().__init__(request)
        self.most_bytes = most_bytes or MAX_BYTES
        self.too_large = []

    def new_file(self, *args, **kwargs):
        super().new_file(*args, **kwargs)
        self.arrived = 0

    def receive_data_chunk(self, raw_data, start):
        self.arrived += len(raw_data)
        if self.arrived > self.most_bytes:
            self.too_large.append(self.file_name)
            self.file.close()
            raise SkipFile
        super().receive_data_chunk(raw_data, start)
