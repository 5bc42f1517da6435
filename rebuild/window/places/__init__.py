"""The Places page: every bag, tote, shelf, bath and shop, and what lies in it since when."""
