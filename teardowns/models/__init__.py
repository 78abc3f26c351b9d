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
from .drafts import UnsavedSection
from .evidence import Measurement
from .insulation import Barrier, InsulationObservation, Method, Path, Shape, Site, Situation
from .parts import BoardFamily, BoardFamilyMember, Part, PartLimit
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
from .recordings import (
    InstrumentLayout,
    Recording,
    RecordingKind,
    RecordingReading,
    RecordingUpload,
)
from .reference_sets import ReferenceSet
from .reviews import AuditEntry, Publication, Reply, Review, ReviewDecision
from .scenario_sets import ScenarioSet
from .units import Channel, Kind, Status, Unit

__all__ = [
    "Annotation", "Assessment", "AuditEntry", "Barrier", "BoardFamily", "BoardFamilyMember",
    "Bridged", "Channel", "Claim", "ClaimKind", "Component", "Connector", "Damage",
    "DataWiring", "How", "InstrumentLayout", "InsulationObservation", "Kind", "LayerKind",
    "Material", "Measurement", "Method", "Part", "PartLimit", "Path", "Photo", "PhotoClicks",
    "PhotoCover", "PhotoDerivative", "PhotoReading", "PhotoScale", "PhotoTemperature",
    "PhotoUpload", "Port", "PrintedText", "Publication", "Recording", "RecordingKind",
    "RecordingReading", "RecordingUpload", "ReferenceSet", "Reply", "Review", "ReviewDecision",
    "ReviewState", "Role", "ScenarioSet", "Shape", "Site", "Situation", "Source", "StackLayer",
    "Stage", "State", "Status", "UncertaintyKind", "Unit", "UnsavedSection", "WindingRole",
    "WireInsulation",
]
EVIDENCE = (PrintedText, Claim, Port, Component, StackLayer, InsulationObservation, Measurement)
