"""What leaves on paper: PDFs of beds and of weeks, and the inks and marks that the desk shares."""
