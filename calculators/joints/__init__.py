"""The joint: from a fastener and its stack to every hole, the length, what holds, and what is wrong.

May import: tables, quantities, hardware, materials. Offers `work_joint` and the records of `model.py`.
"""
