"""Small PDF files written by hand for the tests, so that their text and their faults are known to the byte."""

import io

from PIL import Image


def text_pdf(pages: list[list[str]], step: int = 16, encrypted: bool = False) -> bytes:
    """A PDF with a text layer: lines from the top of each page, an empty line leaves white."""
    objects = ["<< /Type /Catalog /Pages 2 0 R >>", "", "<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>"]
    kids = []
    for lines in pages:
        drawn = ["BT /F1 11 Tf"]
        for at, line in enumerate(lines):
            text = line.replace("\\", r"\\").replace("(", r"\(").replace(")", r"\)")
            drawn.append(f"1 0 0 1 60 {780 - at * step} Tm ({text}) Tj")
        stream = "\n".join([*drawn, "ET"])
        objects.append(f"<< /Length {len(stream)} >>\nstream\n{stream}\nendstream")
        kids.append(f"{len(objects) + 1} 0 R")
        objects.append(
            "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] "
            f"/Resources << /Font << /F1 3 0 R >> >> /Contents {len(objects)} 0 R >>"
        )
    objects[1] = f"<< /Type /Pages /Kids [{' '.join(kids)}] /Count {len(kids)} >>"
    trailer = ""
    if encrypted:  # digests that fit no password, so that the empty one is refused
        objects.append(f"<< /Filter /Standard /V 1 /R 2 /P -4 /O <{'41' * 32}> /U <{'42' * 32}> >>")
        trailer = f" /Encrypt {len(objects)} 0 R /ID [<{'00' * 16}> <{'00' * 16}>]"
    return _file(objects, trailer)


def _file(objects: list[str], trailer: str) -> bytes:
    out = io.BytesIO()
    out.write(b"%PDF-1.4\n")
    places = []
    for number, thing in enumerate(objects, 1):
        places.append(out.tell())
        out.write(f"{number} 0 obj\n{thing}\nendobj\n".encode("latin-1"))
    start = out.tell()
    out.write(f"xref\n0 {len(objects) + 1}\n0000000000 65535 f \n".encode())
    out.write(b"".join(f"{place:010} 00000 n \n".encode() for place in places))
    out.write(f"trailer\n<< /Size {len(objects) + 1} /Root 1 0 R{trailer} >>\nstartxref\n{start}\n%%EOF\n".encode())
    return out.getvalue()


def scanned_pdf(pages: list[Image.Image]) -> bytes:
    """A PDF of pictures, as a scanner makes it."""
    out = io.BytesIO()
    pages[0].save(out, "PDF", save_all=True, append_images=pages[1:], resolution=150)
    return out.getvalue()
