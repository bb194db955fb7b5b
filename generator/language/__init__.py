"""Every text that a machinist sees, in the language of the shop.

    say         a text as it is said now: `say`, `say_count` for one or many, `later` for a text in a table
    lists       words one after the other, with the and or the or of the language
    spoken      the languages there are; `speak` chooses one for the whole process
    scripts     the scripts of the pages, with their texts in it
    uk          American words of the trade turned into British ones
    de.po       German: each text in English, and beneath it as a German machinist would say it

The English text stands in the code, where it is used, and is the key to the other languages.
"""
