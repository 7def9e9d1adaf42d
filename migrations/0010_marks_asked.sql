-- Which marks a piece is sent for; null: that of its fineness.

ALTER TABLE hallmark_packet_pieces ADD COLUMN marks TEXT CHECK (length(marks) BETWEEN 1 AND 200);
