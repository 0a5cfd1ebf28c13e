"""What a builder knows, as frozen values and plain functions.

May import: the standard library and this room only.
"""
