"""Dryfit: checks a small woodworking build on paper before a board is bought."""
