"""Setup sheets for thread repair on manual engine lathes. How a job file becomes a page:

    jobs/2026/SW-113-…/job.yml       what the shop knows
      -> job.reading.read_job        text with line and column, checked into a `Job`; all problems at once
      -> sheet.compute.compute_sheet figures, findings, cautions, passes and drawings: a `Sheet`, plain SI
           calc.*                    the formulas, one chapter a module, floats in, floats out
           tables.*                  what the standards and handbooks print
      -> render.page.render_page     a `Sheet` becomes the HTML of one sheet, complete and escaped
      -> framework.plugin                 the sheets, the archive page and the prose pages become the site

`python -m generator` is the command line, `python -m generator.setup` sets a fresh checkout up.
Imports go down this list only, and this module imports nothing.
"""
