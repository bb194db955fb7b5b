"""The command `receive`: a setup from another shop as a new job of this one."""

from __future__ import annotations

import datetime
import sys
import tempfile
from argparse import Namespace
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Final

from generator.commands import CLEAN, ERRORS, Shops, UsageError
from generator.errors import JobProblems, Location, why_not
from generator.language.say import say
from generator.terminal import say_problem

if TYPE_CHECKING:
    from generator.job.shop import Shop
    from generator.pack.taken import Taken, Theirs
    from generator.sheet.compare import Compared
    from generator.sheet.model import Sheet
    from generator.sheet.other_lathes import Comparison

OF_THEIRS: Final = "theirs"  # their lathe beside those of this shop


def receive(asked: Namespace) -> int:
    """Check what came, show what it adds and changes, and add it as a new job."""
    from generator.job.editor_line import with_lines
    from generator.pack.contents import PackRefused
    from generator.pack.placing import place_folder

    file, jobs = Path(asked.file), Path(asked.jobs or "jobs")
    shop = _own_shop(jobs)
    if asked.lathe is not None and asked.lathe not in shop.lathes:
        known = say("the shop has {lathes}", lathes=", ".join(shop.lathes))
        raise UsageError(
            say(
                "{lathe}: is not a lathe of this shop: {known}; nothing was added",
                lathe=asked.lathe,
                known=known,
            )
        )
    try:
        with tempfile.TemporaryDirectory(prefix="setup-") as folder:
            theirs = _read(file, Path(folder))
            new, sheet, compared = _here(theirs, shop, asked.lathe, jobs, Path(folder))
    except PackRefused as error:
        print(
            say("{file}: is not taken in: {error}. Nothing was added.", file=file, error=error),
            file=sys.stderr,
        )
        return ERRORS
    except JobProblems as error:
        for problem in error.problems:
            say_problem(problem, sys.stderr)
        print(
            say("{file}: is not taken in, for the reasons above. Nothing was added.", file=file),
            file=sys.stderr,
        )
        return ERRORS
    target = jobs / _today()[:4] / new.folder
    here = shop.lathes[str(new.tree["lathe"])].name
    print("\n".join(_report(theirs, new, here, sheet, compared, target)))
    if asked.show:
        print(say("Only shown: nothing was added."))
        return CLEAN
    place_folder(target, with_lines(new.files, jobs))
    print(say("Added {target}.", target=target / "job.yml"))
    return CLEAN


def _own_shop(jobs: Path) -> Shop:
    shop: Shop | JobProblems = Shops(jobs).of(jobs / "0000" / "new" / "job.yml")
    if isinstance(shop, JobProblems):
        raise shop
    return shop


def _read(file: Path, folder: Path) -> Theirs:
    """What came, read as the sender's own archive.

    Raises
    ------
    PackRefused, JobProblems
        When anything of it is not as it should be.
    """
    from generator.job.beside import PICTURES_TAKEN
    from generator.job.log_names import log_names
    from generator.job.reading import read_job, read_log, read_shop
    from generator.pack.contents import HOUSE, JOB, LOG, MOST_ZIP, PackRefused, picture_name
    from generator.pack.placing import lay_out
    from generator.pack.taken import Theirs
    from generator.pack.zipped import unzipped
    from generator.pictures import BadPicture, redrawn
    from generator.site.archive import make_sheet

    if file.suffix[1:].lower() in PICTURES_TAKEN:
        return _from_paper(file, folder)
    try:
        with file.open("rb") as opened:
            data = opened.read(MOST_ZIP + 1)
    except OSError as error:
        raise PackRefused(say("it cannot be read: {reason}", reason=why_not(error))) from error
    manifest, files = unzipped(data)
    for name in (JOB, HOUSE):
        if name not in files:
            raise PackRefused(say("it holds no {name}", name=name))
    for name in filter(picture_name, files):
        try:
            redrawn(files[name])
        except BadPicture as error:
            raise PackRefused(
                say("the picture {name} in it {error}", name=picture_name(name), error=error)
            ) from error
    path = lay_out(files, folder / "theirs", "0000", "job")
    with _told(folder / "theirs", file):
        shop = read_shop(folder / "theirs" / "_shop")
        make_sheet(path, shop)
        read = read_job(path)
        if read.job.job != manifest.job:
            raise PackRefused(say("its manifest names another job than its job file"))
        if read.job.lathe not in shop.lathes:
            raise JobProblems([read.problem("lathe", say("is not described among what came"))])
        log = None
        if LOG in files:
            lathe = shop.lathes[read.job.lathe]
            log = read_log(
                path.with_name("log.yml"), read.job.units, lathe.units, names=log_names(read.job, shop)
            )
            if log.problems:
                raise JobProblems(log.problems)
    return Theirs(manifest, files, read, log, shop)


def _from_paper(file: Path, folder: Path) -> Theirs:
    """The job file in the code on a page that was handed over; it comes alone."""
    from generator.job.reading import read_job
    from generator.pack.contents import JOB, Manifest
    from generator.pack.placing import lay_out
    from generator.pack.taken import Theirs
    from generator.paper_reading import read_paper

    files = {JOB: read_paper(file)}
    path = lay_out(files, folder / "theirs", "0000", "job")
    with _told(folder / "theirs", file):
        read = read_job(path)
    job = read.job
    manifest = Manifest(
        job=job.job, title=job.title, shop=say("another shop, on paper"), lathe=job.lathe,
        left_out=(say("all but the job file"),), files=(),
    )
    return Theirs(manifest, files, read, None, None)


def _here(
    theirs: Theirs, shop: Shop, lathe: str | None, jobs: Path, folder: Path
) -> tuple[Taken, Sheet, Comparison]:
    """The new job, its sheet on the lathe of this shop, and how that differs from theirs.

    Where their lathe did not come along, the lathes of this shop stand beside each other alone.
    """
    from generator.job.reading import find_jobs, read_job
    from generator.job.sender import read_sender, with_sender
    from generator.pack.taken import RECEIVED, as_it_came, taken
    from generator.sheet.other_lathes import comparison
    from generator.site.archive import make_sheet

    folders = [path.parent.name for path in find_jobs(jobs)] if jobs.is_dir() else []
    day = _today()
    first = taken(theirs, shop, lathe or next(iter(shop.lathes)), folders, day)
    path = folder / "here" / "0000" / "job" / "job.yml"
    path.parent.mkdir(parents=True)
    _write(path, first)
    sender = read_sender(path.parent)
    assert sender is not None
    whole = with_sender(shop, sender)
    wanted = {lathe: shop.lathes[lathe]} if lathe else dict(shop.lathes)
    read = read_job(path, whole)
    chosen: tuple[Compared, ...] = ()
    if theirs.shop is None:
        compared = comparison(read, whole.model_copy(update={"lathes": wanted}))
        new = taken(theirs, shop, lathe or compared.ranking[0].on.lathe.lathe, folders, day)
    else:
        lathes = {OF_THEIRS: theirs.shop.lathes[theirs.read.job.lathe], **wanted}
        both = whole.model_copy(update={"lathes": lathes})
        on_theirs = replace(read, job=read.job.model_copy(update={"lathe": OF_THEIRS}))
        compared = comparison(on_theirs, both)
        best = lathe or next(
            one.on.lathe.lathe for one in compared.ranking if one.on.lathe is not compared.here.lathe
        )
        (beside,) = chosen = tuple(one for one in compared.others if one.there.lathe.lathe == best)
        new = taken(theirs, shop, best, folders, day, [one.field for one in beside.there.let_go])
    _write(path, new)
    new = replace(new, files={**new.files, RECEIVED: as_it_came(theirs)})
    return new, make_sheet(path, shop), replace(compared, others=chosen)


def _write(path: Path, new: Taken) -> None:
    for name, data in new.files.items():
        path.with_name(name).write_bytes(data)


def _report(
    theirs: Theirs, new: Taken, here: str, sheet: Sheet, compared: Comparison, target: Path
) -> Iterator[str]:
    """What is added, what is other than there, what cannot be done here, what has to be decided."""
    from generator.pack.both_units import both_units
    from generator.render.compare_text import other_lathe_lines

    yield say(
        "From {shop}: {job}, {title}",
        shop=theirs.manifest.shop,
        job=theirs.manifest.job,
        title=theirs.manifest.title,
    )
    yield say("Planned there for {lathe}; here for {here}.", lathe=theirs.manifest.lathe, here=here)
    yield from _listed(say("They left out"), theirs.manifest.left_out)
    added = [say("{name}, {data:,} bytes", name=name, data=len(data)) for name, data in new.files.items()]
    yield from _listed(say("This adds {target}", target=target), added)
    yield from _listed(say("Other in the job than they wrote it"), new.changed)
    yield from _listed(say("Written lengths, and in the other unit, rounded (≈)"), both_units(theirs.read))
    yield ""
    for one in compared.others:
        yield from other_lathe_lines(one, sheet.system)
    stops = [finding.text for finding in sheet.findings if finding.level == "stop"]
    yield from _listed(say("Cannot be done here as it is planned"), stops)
    checks = [finding.text for finding in sheet.findings if finding.level == "check"]
    yield from _listed(say("Has to be decided before it is run"), [*new.decide, *checks])


def _listed(heading: str, said: Sequence[str]) -> Iterator[str]:
    if said:
        yield f"{heading}:"
        yield from (f"    {one}" for one in said)


@contextmanager
def _told(folder: Path, file: Path) -> Iterator[None]:
    """What is wrong with a file that came is said of it in the zip, not of where it was laid out."""
    try:
        yield
    except JobProblems as error:
        raise JobProblems([
            replace(one, location=_in_the_zip(one.location, folder, file)) for one in error.problems
        ]) from None


def _in_the_zip(where: Location, folder: Path, file: Path) -> Location:
    top, *rest = where.path.relative_to(folder).parts
    inside = Path("shop", *rest) if top == "_shop" else Path("job", *rest[1:])
    return replace(where, path=file / inside)


def _today() -> str:
    return datetime.date.today().isoformat()
