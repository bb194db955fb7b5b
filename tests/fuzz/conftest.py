"""The coverage-guided run is no test: it needs atheris, and as long as it is let run."""

collect_ignore = ["coverage_guided.py"]
