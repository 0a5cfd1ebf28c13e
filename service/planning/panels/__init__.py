"""Sheets: what to buy and how to cut panels out of it, edge to edge, at the least cost.

`sheets.plan_sheets` is the way in. Inside, everything is whole steps of the problem's own unit.
"""
