"""The pages of the archive, from the rows of jobs: table of jobs, search, lists, times, calendar."""
