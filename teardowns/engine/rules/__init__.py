"""The rules, one file each, found by walking these folders."""
