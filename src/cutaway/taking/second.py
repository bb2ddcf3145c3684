"""The other reader, where it is installed: an independent second reading of strips that hold a figure or a doubt."""

import logging
from threading import Lock
from typing import Any

import numpy as np
from PIL import Image


class SecondReader:
    """Has a life: it loads its letters once, when the first strip comes."""

    def __init__(self, engine_class: Any, name: str) -> None:
        self._engine_class = engine_class
        self.name = name
        self._engine: Any = None
        self._lock = Lock()

    def read(self, picture: Image.Image) -> str:
        """The words in one line of print; '' where it makes nothing of it."""
        with self._lock:
            if self._engine is None:
                self._engine = self._engine_class()
            found, _ = self._engine(np.asarray(picture.convert("RGB")), use_det=False, use_cls=False, use_rec=True)
        return " ".join(str(item[0]) for item in found or ()).strip()


def find_second_reader() -> SecondReader | None:
    """The other reader, or None where it is not installed. Nothing is fetched: its letters are in its package."""
    try:
        import rapidocr_onnxruntime
    except ImportError:
        return None
    logging.getLogger("RapidOCR").setLevel(logging.ERROR)
    return SecondReader(rapidocr_onnxruntime.RapidOCR, "rapidocr-onnxruntime")
