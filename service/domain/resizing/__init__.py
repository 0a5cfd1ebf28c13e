"""The same piece in another size, of other stock, or in another region: one file a step of the way.

`resize` is the question. The runs become `equations`, which `solving` solves; shapes are figured
again (`refiguring`) and what stands at a place or spans a distance follows (`following`).
`regions` and `counterparts` find the stock of another region, `taping` rounds, `kept` says what
stays. May import: the domain.
"""
