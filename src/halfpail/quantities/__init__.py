"""What people type and read: exact amounts, the only conversion factors, and their wording."""
