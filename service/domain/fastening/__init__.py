"""What holds a joint: where two parts meet, what is made for it, what is right, what is wrong.

`meeting` is two parts as a fastener sees them, `fixing` one way to hold them, `flaws` what is wrong
with it; `proposing` ranks the ways that have none, and `advising` is the whole answer.
"""
