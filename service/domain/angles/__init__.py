"""Shapes of small furniture figured from a few measures: one file a family of shapes.

Each family answers the parts as they must be cut, nothing rounded, and what a builder needs to
mark, trace, cut and prove them. `figuring` asks them all in one way; the rules about shapes hold
the parts of a build against the same figures. May import: the domain.

Conventions of every family: x runs to the right and y up as one looks at the front of the piece; a
lean is from vertical; `seen` says whether the face (width) or the edge (thickness) of the stick
shows where its angle shows. Formulas are plane and solid geometry.
"""
