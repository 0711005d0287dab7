"""A lever about a pivot: springs, loads, stops; where it balances, how stiffly, how far it travels.

The plane has its origin at the pivot, x to the right and y up; angles are anticlockwise, the lever as it is
drawn stands at 0. Inside: millimetres, newtons, radians, so moments are in N mm and stiffness in N mm/rad.
"""
