"""Public records as data for others: tables of all of them, and a bag of one."""
