"""The manual: pages that say what each question, field, finding and table is for, and a demo.

Pages are made of templates and of what the other rooms say of themselves: nothing is told twice.
The demo asks a running service, as any other client does.
"""
