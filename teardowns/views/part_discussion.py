"""What is said about a part of the library."""
from core.buckets import limited
from core.once import once
from core.sent_forms import takes_sent_form
from teardowns import access

from .discussion_page import ACCOUNT, NETWORK, discussion_page


@limited("comments", account=ACCOUNT, network=NETWORK)
@once
@takes_sent_form
def part_discussion(request, pk):
    part = access.part_to_see(request.user, pk)
    return discussion_page(request, part, (part.get_absolute_url(), part.marking))
