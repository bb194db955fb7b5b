"""The site explains itself: what each figure, finding, caution and key is, from what computes and reads them.

    docstrings   a calculation as its docstring explains it
    texts        what was written by hand, beside the ids: texts/*.toml
    laid         how the sheets of the demo lay each figure down: laid.json, compared by a test
    figures      one entry for every figure: texts, what is laid, the calculation's docstring
    sentences    what a finding says, read from the sources
    findings     one entry for every finding: texts, harm, sentences
    cautions     every caution with its signal word and source
    pages        all that as pages of the site
"""
