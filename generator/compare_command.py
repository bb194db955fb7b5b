"""The command `compare`: one job beside the other lathes of the shop."""

from __future__ import annotations

import json
import sys
from argparse import Namespace
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from generator.commands import CLEAN, ERRORS, Shops, UsageError, job_file
from generator.errors import JobProblems
from generator.language.say import say
from generator.terminal import say_problem

if TYPE_CHECKING:
    from generator.job.shop import Shop


def compare(asked: Namespace) -> int:
    """Print what stays, what changes and what cannot be done on other lathes, and the best lathe."""
    from generator.render.compare_json import compare_record
    from generator.render.compare_text import compare_lines
    from generator.site.archive import compare_job

    jobs = Path(asked.jobs or "jobs")
    path = job_file(asked.job, jobs)
    shop: Shop | JobProblems = Shops(jobs).of(path)
    try:
        compared = compare_job(path, shop)
    except JobProblems as error:
        for problem in error.problems:
            say_problem(problem, sys.stderr)
        return ERRORS
    assert not isinstance(shop, JobProblems)  # a broken shop has no comparison
    names = _lathes(asked.lathe or (), shop, compared.here.lathe.lathe)
    if names:
        by_name = {one.there.lathe.lathe: one for one in compared.others}
        compared = replace(compared, others=tuple(by_name[name] for name in names))
    if asked.json:
        print(json.dumps(compare_record(compared), indent=2, allow_nan=False))
    else:
        print("\n".join(compare_lines(compared)))
    return CLEAN


def _lathes(asked: Any, shop: Shop, own: str) -> list[str]:
    """The lathes asked for, each once, in the order given."""
    from generator.units import nearest

    for name in asked:
        if name == own:
            raise UsageError(
                say("{name}: is the lathe that the job is planned for; name another one", name=name)
            )
        if name not in shop.lathes:
            near = nearest(name, list(shop.lathes))
            hint = (
                say("did you mean {near}?", near=near)
                if near
                else say("the shop has {lathes}", lathes=", ".join(shop.lathes))
            )
            raise UsageError(say("{name}: is not a lathe of this shop: {hint}", name=name, hint=hint))
    return list(dict.fromkeys(asked))
