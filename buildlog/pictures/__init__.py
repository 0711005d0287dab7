"""Photographs: read safely from what a phone or camera sends, and kept in the database.

May import Django, `buildlog.workshops`, `calculators.quantities`, Pillow and pillow-heif. Offers
`reading.read_picture`, `actions.keep_picture` and `queries`.
"""
