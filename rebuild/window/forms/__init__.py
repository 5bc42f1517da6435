"""Forms made from the table of fields, and the dialogs that add and settle things."""
