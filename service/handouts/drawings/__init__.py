"""What the handout draws: boards and sheets with their cuts, parts with angles, sums as a row.

Each file makes `Drawing` values of one kind from what was planned and resolved; it figures where
lines go on paper, never a size of the piece. May import: service.domain, service.planning.
"""
