"""The archive's pages, from the rows of jobs: the table and its search, lists, times and calendar."""
