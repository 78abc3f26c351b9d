"""What is measured by one command; limits on how often are lifted, for one machine is everybody."""
import os

for limit in ("SEARCHES", "UPLOADS", "ACCOUNT_SHEETS"):
    os.environ.setdefault(limit, "10000000")
