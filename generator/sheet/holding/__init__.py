"""How the work is held, and how it stands up to cut, speed, weight, grip, load and heat.

`section` runs the parts in order. Each part takes the `Case`, lays its figures and findings on the desk and
hands on what the next part needs.
"""
