"""Drawings in true proportion: plain SVG with presentation attributes and class names, no style, no script.

May import: tables, quantities, hardware, materials, geometry, joints. Offers by module:
`section.joint_section`.
"""
