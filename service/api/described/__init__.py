"""What each question says of itself: how it is asked, and the shape of what it answers.

Answers are plain JSON Schema values, a file a subject; a test holds every answer against them.
Requests are told by the forms in `documents`. May import: marshmallow, `service.domain`.
"""
