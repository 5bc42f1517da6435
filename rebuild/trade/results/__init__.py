"""What engineering hands back: a value with its working, the published tables it rests on, the usual cautions."""
