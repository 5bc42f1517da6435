"""Faults on purpose: programs killed, files spoiled, odd inputs; scripts with their figures."""
