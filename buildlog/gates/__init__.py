"""The checks that every change passes, one gate each; may import the standard library and `buildlog.setup`.

`run` is `manage.py check-all`; `gate` lists the gates; `docstrings` reads the calculators' docstrings.
"""
