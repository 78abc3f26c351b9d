"""Write the end of the log into the lines of the site, which lie elsewhere than the database."""
import logging

from core.audit.models import Head

logger = logging.getLogger(__name__)


def note_end() -> str:
    """As `check_audit --witness` takes it; "" of a log without entries."""
    head = Head.objects.filter(pk=1).first()
    if head is None:
        return ""
    logger.info("End of the audit log: %s:%s", head.sequence, head.hash)
    return f"{head.sequence}:{head.hash}"
