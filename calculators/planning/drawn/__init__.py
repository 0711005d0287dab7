"""What of a build is drawn: the geometry of its parts' faces, for every drawing, template and file.

May import: everything below planning in calculators, and planning's model, placing and schedules.
"""

from calculators.planning.drawn.face_shapes import face_shape, face_shapes
from calculators.planning.drawn.manner import manner_of_part

__all__ = ["face_shape", "face_shapes", "manner_of_part"]
