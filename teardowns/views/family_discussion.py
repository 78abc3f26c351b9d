"""What is said about a board family."""
from core.buckets import limited
from core.once import once
from core.sent_forms import takes_sent_form
from teardowns import access

from .discussion_page import ACCOUNT, NETWORK, discussion_page


@limited("comments", account=ACCOUNT, network=NETWORK)
@once
@takes_sent_form
def family_discussion(request, slug):
    family = access.family_to_see(slug)
    return discussion_page(request, family, (family.get_absolute_url(), family.name))
