"""Files of the archive as no one should write them: made from right ones by a few changes each."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from hypothesis import strategies as st

ROOT: Final = Path(__file__).resolve().parents[2]
TOKENS: Final = (  # what YAML, units and numbers are made of, and what they are not made of
    b": ", b"- ", b"{", b"}", b"[", b"]", b", ", b"|", b">", b"&a ", b"*a", b"!!python/name:os.system ",
    b"---\n", b"...\n", b"#", b"'", b"\"", b"\\x00", b"? ", b"<<: *a\n", b"%YAML 9.9\n", b"\t", b"\r",
    b"\r\n", b"\n", b" " * 40, b"\xef\xbb\xbf", b"\xff\xfe", b"\x00", b"\x1b[31m", b"\xe2\x80\xae",
    b"\xf0\x9f\x94\xa9", b"\xc3", b"\x85", b"\xe2\x80\xa8", b"1e999", b"-0", b"0x1F", b"0o17", b"1_000",
    b".inf", b".nan", b"1/0", b"1 1/0", b"9" * 400, b"0." + b"0" * 300, b"1,5 mm", b"2\"", b"3 ft 2 in",
    b"12 parsec", b"5 mm^9", b"yes", b"null", b"~", b"unknown", b"auto", b"M30x3.5", b"2-8 UN-2A LH",
    b"Tr40x14(P7)", b"1:1:1", b"2026-13-45", b"2026-02-30 25:61", b"</script><b>", b"=1+1", b"../" * 9,
    b"[" * 60, b"{a: " * 30, b"job: x\n", b"work: []\n", b"operations: {}\n", b"thread: {}\n",
    b"units: furlong\n",
)


@st.composite
def mutated(draw: st.DrawFn, bases: tuple[bytes, ...]) -> bytes:
    """One of the files with a few bytes, lines or words other than they were."""
    data = draw(st.sampled_from(bases))
    for _ in range(draw(st.integers(1, 4))):
        data = _changed(draw, data, bases)
    return data[:200_000]


def _changed(draw: st.DrawFn, data: bytes, bases: tuple[bytes, ...]) -> bytes:
    at = draw(st.integers(0, max(len(data) - 1, 0)))
    end = min(len(data), at + draw(st.integers(0, 30)))
    lines = data.splitlines(keepends=True) or [b""]
    line, other = (draw(st.integers(0, len(lines) - 1)) for _ in range(2))
    match draw(st.integers(0, 7)):
        case 0:
            return data[:at] + bytes([draw(st.integers(0, 255))]) + data[at + 1 :]
        case 1:
            return data[:at] + data[end:]
        case 2:
            return data[:at] + draw(st.sampled_from(TOKENS)) + data[at:]
        case 3:
            return data[:at] + draw(st.sampled_from(TOKENS)) + data[end:]
        case 4:
            lines.insert(other, lines[line])
            return b"".join(lines)
        case 5:
            lines[line], lines[other] = lines[other], lines[line]
            return b"".join(lines)
        case 6:
            key, colon, _ = lines[line].partition(b":")
            lines[line] = key + colon + b" " + draw(st.sampled_from(TOKENS)) + b"\n"
            return b"".join(lines)
        case _:
            more = draw(st.sampled_from(bases)).splitlines(keepends=True) or [b""]
            lines.insert(line, more[draw(st.integers(0, len(more) - 1))])
            return b"".join(lines)


def files(pattern: str) -> tuple[bytes, ...]:
    """What the files of the demo archive hold."""
    return tuple(path.read_bytes() for path in sorted((ROOT / "jobs").glob(pattern)))
