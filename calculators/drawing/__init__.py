"""Drawings in true proportion: plain SVG with presentation attributes and class names, no style, no script.

May import: tables, quantities, calculation, hardware, materials, geometry, mechanics, joints. Offers by
module: `section.joint_section`, `face_plan.face_plan`, `chart.chart`,
`sketch.Sketch` (what the pictures of setting out are put together with).
"""
