"""What the user does and reads, one folder a noun: ``acts*`` write, ``rows*`` read, ``rules*`` refuse."""
