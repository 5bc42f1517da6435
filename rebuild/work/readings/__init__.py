"""Features, instruments and readings: recorded, judged, shown in the grid."""
