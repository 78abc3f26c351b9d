"""Who may see or change what; the only place that decides."""
from .files import (
    may_take_down,
    photo_to_change,
    photo_to_cover,
    photo_to_read_again,
    photo_to_see,
    photo_with_original,
    recording_to_change,
    recording_to_see,
    recording_with_original,
)
from .library import (
    family_to_see,
    may_decide_proposal,
    may_see_proposal,
    part_to_see,
    proposal_to_see,
)
from .talk import (
    comment_of_own,
    comment_to_moderate,
    comments_seen_by,
    may_comment,
    may_reply,
    may_write,
    reply_of_own,
    reply_version_to_moderate,
    sees_internal,
    thing_seen_by,
)
from .units import (
    HANDED_IN,
    correction_to_see,
    holds_review,
    may_change,
    may_decide,
    may_moderate,
    may_read_again,
    may_withdraw,
    public_unit,
    sees_working_copy,
    unit_of_own,
    unit_to_change,
    unit_to_moderate,
    unit_to_review,
    unit_to_see,
    unit_to_withdraw,
    unit_working_copy,
    units_seen_by,
)

__all__ = [
    "HANDED_IN", "comment_of_own", "comment_to_moderate", "comments_seen_by", "correction_to_see",
    "family_to_see", "holds_review", "may_change", "may_comment", "may_decide",
    "may_decide_proposal", "may_moderate", "may_read_again", "may_reply", "may_see_proposal",
    "may_take_down", "may_withdraw", "may_write", "part_to_see", "photo_to_change",
    "photo_to_cover", "photo_to_read_again", "photo_to_see", "photo_with_original",
    "proposal_to_see", "public_unit", "recording_to_change", "recording_to_see",
    "recording_with_original", "reply_of_own", "reply_version_to_moderate", "sees_internal",
    "sees_working_copy", "thing_seen_by", "unit_of_own", "unit_to_change", "unit_to_moderate",
    "unit_to_review", "unit_to_see", "unit_to_withdraw", "unit_working_copy", "units_seen_by",
]
