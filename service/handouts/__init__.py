"""The handout: one page to buy, cut and build a piece from, and every form in which it is given.

`answers` asks each question about a build once; the files named after a section say it in plain
words (`Handout`, in `page`); the writers (HTML, PDF, Markdown, CSV, SVG) only lay those words out,
so that every form says the same. May import: service.domain, service.planning, jinja2, reportlab.
"""
