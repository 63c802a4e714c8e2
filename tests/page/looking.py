"""What a page is like for those who cannot see it, or use no mouse: axe-core's rules."""

import json
from functools import cache

from tests.page.browser import MODULES, Browser


@cache
def _rules() -> str:
    return (MODULES / "axe-core" / "axe.min.js").read_text("utf-8")


def complaints(browser: Browser, *rules: str) -> list[str]:
    """What axe-core finds wrong with the page as it is shown now: the rule and where.

    Only some rules are looked at where they are named.
    """
    only = {"runOnly": {"type": "rule", "values": rules}} if rules else {}
    found: list[str] = browser.evaluate(
        f"""
        if (!window.axe) {{ {_rules()} }}
        const {{ violations }} = await axe.run(document, {{
            ...{json.dumps(only)}, resultTypes: ["violations"],
        }});
        const said = (id) => (node) => `${{id}}: ${{node.target}}: ${{node.failureSummary}}`;
        return violations.flatMap(({{ id, nodes }}) => nodes.map(said(id)));
        """
    )
    return found
