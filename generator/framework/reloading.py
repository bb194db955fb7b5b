"""While the site is served: the script that reloads a changed page may run on it, and nothing else more."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any
from wsgiref.types import StartResponse, WSGIApplication, WSGIEnvironment

from generator.render.policy import with_reloading


def letting_reload(app: WSGIApplication) -> WSGIApplication:
    """The server's application (PEP 3333); the policy of each page it sends names the script it put in.

    That script is another one for each page that is sent, so that no page on disk can name it.
    """

    def answer(environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        begun: list[tuple[str, list[tuple[str, str]]]] = []

        def begin(status: str, headers: list[tuple[str, str]], *more: Any) -> Any:
            begun.append((status, headers))

        body = app(environ, begin)
        status, headers = begun[-1]
        if not dict(headers).get("Content-Type", "").startswith("text/html"):
            start_response(status, headers)
            return body
        try:
            page = with_reloading(b"".join(body).decode("utf-8", "surrogateescape"))
        finally:
            if hasattr(body, "close"):
                body.close()
        data = page.encode("utf-8", "surrogateescape")
        start_response(
            status,
            [(name, str(len(data)) if name == "Content-Length" else value) for name, value in headers],
        )
        return [data]

    return answer
