"""Draws the demo's photograph of an invented pilot's panel: python docs/demo_photograph.py demo/turnstone/photographs

A picture of our own, made to look as if it had been taken: painted metal, dials under glass, a lamp over the left
shoulder, a lens that darkens its corners. Places of the things on it are those of `photographs.yaml`.
"""

import io
import math
import sys
from pathlib import Path

import numpy as np
import resvg_py
from PIL import Image, ImageFilter

WIDE, HIGH = 1500, 1000
DIALS = (  # x, y, radius, the needle's angle in degrees from upright
    (330, 330, 96, -70), (560, 330, 96, -62), (330, 570, 96, 40), (560, 570, 96, 34),
    (800, 300, 112, 0), (800, 570, 112, 200), (1035, 330, 84, 120), (1035, 550, 84, -40),
    (1240, 300, 74, 60), (1240, 490, 74, 60),
)  # fmt: skip
LAMPS = ((180, 800, "#4fbf62"), (240, 800, "#4fbf62"), (300, 800, "#4fbf62"),
         (180, 860, "#5a1d18"), (240, 860, "#5a1d18"), (300, 860, "#5a1d18"),
         (450, 815, "#7a2a1c"), (520, 815, "#7a2a1c"))  # fmt: skip
SWITCHES = ((650, 830), (720, 830), (790, 830), (930, 830), (1000, 830))
BUTTONS = ((1150, 830, "#8e1f1a"), (1230, 830, "#8e1f1a"), (1320, 690, "#26282b"), (1390, 690, "#26282b"))


def dial(x: float, y: float, r: float, turn: float) -> str:
    """A dial with its bezel, its marks, its needle and the light on its glass."""
    marks = "".join(
        f'<line x1="{x + 0.78 * r * math.sin(a):.1f}" y1="{y - 0.78 * r * math.cos(a):.1f}" '
        f'x2="{x + 0.92 * r * math.sin(a):.1f}" y2="{y - 0.92 * r * math.cos(a):.1f}" '
        f'stroke="#d8d4bd" stroke-width="{4 if i % 3 == 0 else 2}"/>'
        for i in range(19)
        if (a := math.radians(-135 + 15 * i)) is not None
    )
    return (
        f'<circle cx="{x + 7}" cy="{y + 10}" r="{r * 1.16}" fill="#000" opacity="0.45" filter="url(#soft)"/>'
        f'<circle cx="{x}" cy="{y}" r="{r * 1.14}" fill="url(#bezel)"/>'
        f'<circle cx="{x}" cy="{y}" r="{r}" fill="#121415"/>{marks}'
        f'<g transform="rotate({turn} {x} {y})"><path d="M {x - 5} {y + r * 0.22} L {x} {y - r * 0.72} '
        f'L {x + 5} {y + r * 0.22} Z" fill="#ece7cf"/></g><circle cx="{x}" cy="{y}" r="{r * 0.1}" fill="#3a3d3e"/>'
        f'<ellipse cx="{x - r * 0.25}" cy="{y - r * 0.42}" rx="{r * 0.62}" ry="{r * 0.36}" fill="url(#glass)"/>'
    )


def lamp(x: float, y: float, ink: str) -> str:
    """A small lamp in its ring."""
    return (
        f'<circle cx="{x + 3}" cy="{y + 5}" r="22" fill="#000" opacity="0.4" filter="url(#soft)"/>'
        f'<circle cx="{x}" cy="{y}" r="21" fill="url(#bezel)"/><circle cx="{x}" cy="{y}" r="15" fill="{ink}"/>'
        f'<circle cx="{x - 5}" cy="{y - 6}" r="5" fill="#fff" opacity="0.45"/>'
    )


def switch(x: float, y: float) -> str:
    """A tumbler switch, down."""
    return (
        f'<rect x="{x - 20}" y="{y - 34}" width="40" height="68" rx="6" fill="url(#bezel)"/>'
        f'<circle cx="{x}" cy="{y}" r="11" fill="#101213"/>'
        f'<path d="M {x - 6} {y} L {x - 9} {y + 44} A 9 9 0 0 0 {x + 9} {y + 44} L {x + 6} {y} Z" fill="url(#metal)"/>'
    )


def button(x: float, y: float, ink: str) -> str:
    """A push-button under its guard."""
    return (
        f'<circle cx="{x + 4}" cy="{y + 6}" r="34" fill="#000" opacity="0.4" filter="url(#soft)"/>'
        f'<circle cx="{x}" cy="{y}" r="33" fill="url(#bezel)"/><circle cx="{x}" cy="{y}" r="21" fill="{ink}"/>'
        f'<ellipse cx="{x - 5}" cy="{y - 8}" rx="10" ry="6" fill="#fff" opacity="0.3"/>'
    )


def scene() -> str:
    """The panel as SVG."""
    rivets = "".join(
        f'<circle cx="{x}" cy="{y}" r="6" fill="#23282a"/><circle cx="{x - 1.5}" cy="{y - 2}" r="3.4" fill="#5d676a"/>'
        for x in range(90, 1480, 132)
        for y in (95, 935)
    )
    cock = (
        '<circle cx="1385" cy="420" r="44" fill="url(#bezel)"/><g transform="rotate(35 1385 420)">'
        '<rect x="1373" y="352" width="24" height="112" rx="12" fill="url(#metal)"/></g>'
        '<circle cx="1385" cy="420" r="13" fill="#191b1c"/>'
    )
    things = [dial(*one) for one in DIALS] + [lamp(*one) for one in LAMPS]
    things += [switch(*one) for one in SWITCHES] + [button(*one) for one in BUTTONS] + [cock]
    return f"""<svg xmlns="http://www.w3.org/2000/svg" width="{WIDE}" height="{HIGH}" viewBox="0 0 {WIDE} {HIGH}">
<defs>
<linearGradient id="wall" x1="0" y1="0" x2="0.7" y2="1"><stop offset="0" stop-color="#55645a"/>
<stop offset="0.6" stop-color="#39453f"/><stop offset="1" stop-color="#262e2b"/></linearGradient>
<linearGradient id="plate" x1="0" y1="0" x2="1" y2="1"><stop offset="0" stop-color="#3b4145"/>
<stop offset="1" stop-color="#1c2023"/></linearGradient>
<linearGradient id="bezel" x1="0" y1="0" x2="1" y2="1"><stop offset="0" stop-color="#858a8b"/>
<stop offset="0.45" stop-color="#34383a"/><stop offset="1" stop-color="#17191a"/></linearGradient>
<linearGradient id="metal" x1="0" y1="0" x2="1" y2="0"><stop offset="0" stop-color="#8d9294"/>
<stop offset="0.4" stop-color="#dfe2e2"/><stop offset="1" stop-color="#5c6163"/></linearGradient>
<linearGradient id="glass" x1="0" y1="0" x2="0" y2="1"><stop offset="0" stop-color="#fff" stop-opacity="0.28"/>
<stop offset="1" stop-color="#fff" stop-opacity="0"/></linearGradient>
<filter id="soft"><feGaussianBlur stdDeviation="7"/></filter>
</defs>
<rect width="{WIDE}" height="{HIGH}" fill="url(#wall)"/>
<path d="M 60 190 Q 90 70 230 66 L 1290 66 Q 1440 72 1452 190 L 1440 955 L 74 955 Z" fill="#000" opacity="0.5"
 filter="url(#soft)"/>
<path d="M 56 184 Q 86 64 226 60 L 1286 60 Q 1436 66 1448 184 L 1436 962 L 70 962 Z" fill="url(#plate)"
 stroke="#5b6467" stroke-width="3"/>
<path d="M 110 735 L 1250 735" stroke="#111415" stroke-width="4"/><path d="M 110 738 L 1250 738" stroke="#565d60"/>
{rivets}{"".join(things)}
</svg>"""


def photograph() -> bytes:
    """The same as if a lens had seen it: light from the upper left, dark corners, grain, not quite sharp."""
    picture = Image.open(io.BytesIO(bytes(resvg_py.svg_to_bytes(svg_string=scene())))).convert("RGB")
    seen = np.asarray(picture.filter(ImageFilter.GaussianBlur(0.8)), dtype=np.float64)
    down, across = np.mgrid[0:HIGH, 0:WIDE]
    from_lamp = np.hypot((across - 380) / WIDE, (down - 150) / HIGH)
    from_middle = np.hypot((across - WIDE / 2) / WIDE, (down - HIGH / 2) / HIGH)
    light = (1.3 - 0.62 * from_lamp) * (1.0 - 0.55 * from_middle**2)
    grain = np.random.default_rng(1943).normal(0.0, 2.2, (HIGH, WIDE, 1))
    warm = np.array([1.04, 1.0, 0.93])
    shown = np.clip(seen * light[..., None] * warm + grain, 0, 255).astype(np.uint8)
    out = io.BytesIO()
    Image.fromarray(shown).save(out, "JPEG", quality=72, optimize=True)
    return out.getvalue()


if __name__ == "__main__":
    target = Path(sys.argv[1])
    target.mkdir(parents=True, exist_ok=True)
    (target / "pilots-panel.jpg").write_bytes(photograph())
