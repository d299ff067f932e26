"""Entries added to a PDF's catalogue by an update at its end (ISO 32000-1, 7.5.6).

Cairo cannot say that a page must not be scaled in printing, nor which language it is in.
"""

from __future__ import annotations

import re
from hashlib import md5

_START = re.compile(rb"startxref\s+(\d+)\s+%%EOF\s*\Z")
_TRAILER = re.compile(rb"trailer\s*<<(.*)>>\s*startxref", re.DOTALL)
_ROOT = re.compile(rb"/Root\s+(\d+)\s+(\d+)\s+R")
_SIZE = re.compile(rb"/Size\s+(\d+)")
_TABLE = re.compile(rb"\Axref\s+0\s+\d+\s+")
_ENTRY = 20
_OBJECT = re.compile(rb"\A\s*\d+\s+\d+\s+obj\s*<<(.*?)>>\s*endobj", re.DOTALL)
_FORMS = re.compile(rb"/XObject\s*<<[^<>]*>>")
_FORM = re.compile(rb"/x\d+\s+\d+\s+\d+\s+R")
_LANGUAGE = re.compile("[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*")


def with_entries(pdf: bytes, language: str) -> bytes:
    """``pdf`` that also names its ``language`` (BCP 47) and asks to be printed unscaled.

    The file's own bytes stay; a new catalogue follows them. Raises ``ValueError`` for a file
    without a plain cross reference table (PDF up to 1.4 style), which is the only kind read here.
    """
    start, trailer = _START.search(pdf), None
    if start is not None:
        trailer = _TRAILER.search(pdf, int(start[1]))
    if start is None or trailer is None:
        raise ValueError("the PDF has no plain cross reference table to add to")
    number, generation = _found(_ROOT, trailer[1]).groups()
    entry = _found(_TABLE, pdf[int(start[1]) :])
    place = int(start[1]) + entry.end() + _ENTRY * int(number)
    catalogue = _catalogue(pdf, int(pdf[place : place + 10]), number, generation, language)
    at = len(pdf)
    table = at + len(catalogue)
    stamp = md5(pdf + catalogue, usedforsecurity=False).hexdigest().encode()
    info = re.search(rb"/Info\s+\d+\s+\d+\s+R", trailer[1])
    return (
        pdf
        + catalogue
        + b"xref\n%s 1\n%010d %05d n \n" % (number, at, int(generation))
        + b"trailer\n<< /Size %s /Root %s %s R "
        % (_found(_SIZE, trailer[1])[1], number, generation)
        + (info[0] + b" " if info else b"")
        + b"/Prev %s /ID [<%s> <%s>] >>\nstartxref\n%d\n%%%%EOF\n" % (start[1], stamp, stamp, table)
    )


def without_repeats(pdf: bytes) -> bytes:
    """``pdf`` with each drawing resource named once, blanks in place of the repeats.

    Cairo 1.16 lists a form once for every use of it; a name may stand once only (7.3.7).
    """
    return _FORMS.sub(lambda found: _blanked(found[0]), pdf)


def _blanked(forms: bytes) -> bytes:
    seen: set[bytes] = set()

    def once(entry: re.Match[bytes]) -> bytes:
        if entry[0] in seen:
            return b" " * len(entry[0])
        seen.add(entry[0])
        return entry[0]

    return _FORM.sub(once, forms)


def _catalogue(pdf: bytes, at: int, number: bytes, generation: bytes, language: str) -> bytes:
    body: bytes = _found(_OBJECT, pdf[at:])[1].rstrip()
    spoken = language if _LANGUAGE.fullmatch(language) else "und"
    return b"%s %s obj\n<<%s\n   /Lang (%s)\n   %s\n>>\nendobj\n" % (
        number,
        generation,
        body,
        spoken.encode("ascii"),
        b"/ViewerPreferences << /PrintScaling /None /DisplayDocTitle true >>",
    )


def _found(pattern: re.Pattern[bytes], text: bytes) -> re.Match[bytes]:
    found = pattern.search(text)
    if found is None:
        raise ValueError("the PDF's trailer lacks an entry it must have")
    return found
