"""Data for the browser as classic scripts, the only thing that it loads from disk."""

from __future__ import annotations

import json
from typing import Final

CALL: Final = "setupSheetData"  # the function of the page that takes what a script brings (js/find_data.js)


def script(name: str, data: object) -> str:
    """A script that hands `data` to the page under `name`.

    ``<`` is escaped, so that no text of a job can end a script element.

    >>> script("rows/2026-1.0", [["</script>", "Ø"]])
    'setupSheetData("rows/2026-1.0",[["\\\\u003c/script>","Ø"]]);\\n'
    """
    written = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    safe = written.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
    return f"{CALL}({json.dumps(name)},{safe});\n"
