"""What is measured by one command; limits on how often are lifted, for one machine is everybody."""
import os

os.environ.setdefault("SEARCHES", "10000000")
