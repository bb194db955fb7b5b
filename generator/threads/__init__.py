"""Screw threads of every family: designations, profiles, limits of size."""
