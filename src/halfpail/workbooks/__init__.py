"""Tables written out: as one spreadsheet of many sheets, or as CSV files in one zip."""
