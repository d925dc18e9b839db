"""Practice plans: how to work through a study, day by day, tempo by tempo, key by key."""

from tabforge.practice.lines import plan_lines
from tabforge.practice.making import plan_of
from tabforge.practice.model import Plan, PlanOptions
from tabforge.practice.page import plan_page
from tabforge.practice.text import plan_text

__all__ = ["Plan", "PlanOptions", "plan_lines", "plan_of", "plan_page", "plan_text"]
