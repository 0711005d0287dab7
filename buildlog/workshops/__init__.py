"""Workshops and the people who share them; may import Django and nothing else of `buildlog`.

Offers `models.Person` and `models.Workshop`, and the demonstration sign-in.
"""
