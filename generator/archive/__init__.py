"""The pages of the archive: the table of jobs, its search, lists, times and calendar, from the rows of jobs."""
