"""The Django project: stores what people enter, decides who may see it, and shows what `calculators` answers.

One folder for each thing that a person manages, and `setup`, `settings`, `gates` for the house itself.
"""
