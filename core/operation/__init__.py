"""What whoever runs the site sees of it: lines, counts, and whether it is alive and ready."""
