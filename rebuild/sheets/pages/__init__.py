"""Pages for the shop: what is written on with dirty hands, pinned to a tray, or carried round the machine."""
