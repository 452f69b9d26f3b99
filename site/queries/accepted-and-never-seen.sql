-- What do we take to exist that nobody has listed a sighting of?
--
-- One row a pairing that is accepted and has no certain sighting; "possible"
-- counts pieces whose card back is not settled and that may be one. These are
-- the ones to send in.
SELECT p.called, p.seen, s.possible, p.id
FROM pairing AS p
JOIN pairing_seen AS s ON s.pairing = p.id
WHERE p.concluded = 'accepted' AND s.specimens = 0
ORDER BY p.rowid;
