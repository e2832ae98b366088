"""Checks, cases and chart of the rule base, for those who write it. One module a check; its docstring is its page."""

from advisor.rule_lint.cases import run_cases
from advisor.rule_lint.chart_page import map_html
from advisor.rule_lint.chart_text import map_lines
from advisor.rule_lint.report import cases_text, check_text
from advisor.rule_lint.runner import lint

__all__ = ["cases_text", "check_text", "lint", "map_html", "map_lines", "run_cases"]
