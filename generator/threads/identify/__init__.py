"""Which thread is this? From what was measured on a thread to the standard threads that it may be.

    measured     what was measured, and how well
    expected     what a standard thread measures: its limits, and what use takes off them
    candidate    how far a thread is from what was measured
    search       all families asked: the candidates, nearest first
    twins        candidates that the measurements cannot tell apart, and the measurement that would
    special      the thread kept as it was measured

Floats in SI (m, rad); threads per inch as the trade counts them.
"""
