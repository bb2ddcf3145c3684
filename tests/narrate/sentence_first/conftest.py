"""The Whinchat with its model taken away, and what compares its sentences with its book."""

import pytest

from cutaway.handbook.records import Folder
from cutaway.narrate.likely import Ranking
from cutaway.narrate.sentence_first import Comparer
from tests.narrate.sentence_first.folders import bare_whinchat, loaded


@pytest.fixture(scope="session")
def bare(tmp_path_factory: pytest.TempPathFactory) -> Folder:
    return loaded(bare_whinchat(tmp_path_factory.mktemp("bare")))


@pytest.fixture(scope="session")
def comparer(bare: Folder) -> Comparer:
    return Comparer(Ranking(bare))
