"""A drawing from CAD made into a part: what is chosen of it, what it becomes, and what is left out.

`sorting` puts the chosen shapes in order, `taking` makes holes, pockets and the outline of them.
"""
