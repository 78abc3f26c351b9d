"""The nouns. Each file holds one; this page is the list."""
from .assessments import Assessment
from .choices import How, ReviewState, State, UncertaintyKind
from .claims import Claim, ClaimKind, PrintedText, Source
from .components import (
    Bridged,
    Component,
    Damage,
    LayerKind,
    Material,
    Role,
    StackLayer,
    WindingRole,
    WireInsulation,
)
from .conflicts import Affiliation
from .data_exports import DataExport
from .discussion import (
    Comment,
    CommentState,
    Digest,
    DigestChoice,
    DigestSetting,
    Notice,
    NoticeKind,
    Watch,
)
from .drafts import UnsavedSection
from .evidence import Measurement
from .families import BoardFamily, BoardFamilyMember
from .insulation import Barrier, InsulationObservation, Method, Path, Shape, Site, Situation
from .licences import ContributionLicence, PhotoPrivacyCheck, Submission, ThirdParty
from .likenesses import CandidateState, Likeness, LikenessCount, LikenessWord, Lookalike
from .listings import ListedUnit, ListingClock, ListingPack
from .moderation import (
    Approval,
    ApprovalAction,
    ApprovalState,
    Charge,
    HiddenKind,
    HiddenNow,
    Report,
    ReportState,
    SavedReply,
)
from .parts import Change, Part, PartLimit, PartProposal
from .photos import (
    Annotation,
    Photo,
    PhotoClicks,
    PhotoCover,
    PhotoDerivative,
    PhotoReading,
    PhotoScale,
    PhotoTemperature,
    PhotoUpload,
    Stage,
)
from .ports import Connector, DataWiring, Port
from .printouts import Printout, PrintoutState
from .proposals import ProposalState
from .publications import Correction, CorrectionStatus, Publication
from .recordings import (
    InstrumentLayout,
    Recording,
    RecordingKind,
    RecordingReading,
    RecordingUpload,
)
from .reference_sets import ReferenceSet
from .remarks import ReviewRemark
from .replies import MakerAccount, Reply, ReplyState, ReplyVersion
from .reviews import Review, ReviewDecision, ReviewEnding
from .saved_searches import SavedSearch
from .scenario_sets import ScenarioSet
from .search_texts import Findable, SearchTerm, SearchText
from .sisters import FamilyPool, SisterReport
from .standing_changes import StandingChange
from .statements import Appeal, AppealState, Decision, Statement, Unalterable
from .units import Channel, Kind, Status, Unit, Work

__all__ = [
    "Affiliation", "Annotation", "Appeal", "AppealState", "Approval", "ApprovalAction",
    "ApprovalState", "Assessment", "Barrier", "BoardFamily", "BoardFamilyMember", "Bridged",
    "CandidateState", "Change", "Channel", "Charge", "Claim", "ClaimKind", "Comment",
    "CommentState", "Component", "Connector", "ContributionLicence", "Correction",
    "CorrectionStatus", "Damage", "DataExport", "DataWiring", "Decision", "Digest", "DigestChoice",
    "DigestSetting", "FamilyPool", "Findable", "HiddenKind", "HiddenNow", "How", "InstrumentLayout",
    "InsulationObservation", "Kind", "LayerKind", "Likeness", "LikenessCount", "LikenessWord",
    "ListedUnit", "ListingClock", "ListingPack", "Lookalike", "MakerAccount", "Material",
    "Measurement", "Method", "Notice", "NoticeKind", "Part", "PartLimit", "PartProposal", "Path",
    "Photo", "PhotoClicks", "PhotoCover", "PhotoDerivative", "PhotoPrivacyCheck", "PhotoReading",
    "PhotoScale", "PhotoTemperature", "PhotoUpload", "Port", "PrintedText", "Printout",
    "PrintoutState",
    "ProposalState", "Publication", "Recording", "RecordingKind", "RecordingReading",
    "RecordingUpload", "ReferenceSet", "Reply", "ReplyState", "ReplyVersion", "Report",
    "ReportState", "Review", "ReviewDecision", "ReviewEnding", "ReviewRemark", "ReviewState",
    "Role", "SavedReply", "SavedSearch", "ScenarioSet", "SearchTerm", "SearchText", "Shape",
    "SisterReport", "Site", "Situation", "Source", "StackLayer", "Stage", "StandingChange", "State",
    "Statement", "Status", "Submission", "ThirdParty", "Unalterable", "UncertaintyKind", "Unit",
    "UnsavedSection", "Watch", "WindingRole", "WireInsulation", "Work",
]
EVIDENCE = (PrintedText, Claim, Port, Component, StackLayer, InsulationObservation, Measurement)
