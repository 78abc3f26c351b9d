"""Settings under which a job comes back after seconds; shipped are 180 s."""
from core.settings import *  # noqa: F403
from core.settings import Q_CLUSTER as SHIPPED

Q_CLUSTER = SHIPPED | {"timeout": 6, "retry": 8}
