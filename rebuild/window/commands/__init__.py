"""Acts and keys as data: menus, pages, help."""
