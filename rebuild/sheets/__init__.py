"""What is printed or written for reading: paper, drawings and text."""
