"""The archive as a site: what is kept of each job, who makes the sheets, what stands where."""
