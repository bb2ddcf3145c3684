"""What axe-core, the checker of accessible pages that others keep, finds on a page in the browser."""

from typing import Any

from axe_playwright_python.sync_playwright import Axe


def violations(page: Any) -> list[str]:
    """Each rule that a page breaks, as a line with the elements at fault; all rules of axe-core are asked."""
    found = Axe().run(page).response["violations"]
    return [
        f"{one['id']}: {one['help']} at {'; '.join(str(node['target']) for node in one['nodes'][:4])}" for one in found
    ]
