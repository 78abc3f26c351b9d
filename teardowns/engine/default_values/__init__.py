"""What an unmeasured quantity is taken to be, and why: one file a part of the charger."""
