"""Buying and cutting: what to buy, and how to cut it, at the least cost that can be proved.

May import: the standard library, numpy, highspy (only `lp` does), this room and the domain.
"""
