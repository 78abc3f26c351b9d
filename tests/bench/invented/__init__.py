"""Many invented units, alike enough to be made quickly and different enough to be told apart."""
