-- How do published estimates of a pairing compare with what was seen?
--
-- One row a quoted estimate. Where "seen" is above "number" or "high", the
-- estimate has been overtaken; that it is below says little, since nobody
-- sees them all. An estimate is of what "of" says, never of the rest.
SELECT p.called, e."of", e.form, e.number, e.low, e.high, e.date,
	o.called AS source, s.specimens AS seen
FROM pairing_estimates AS e
JOIN pairing AS p ON p.id = e.pairing
JOIN source AS o ON o.id = e.source
JOIN pairing_seen AS s ON s.pairing = e.pairing
ORDER BY p.rowid, e.position;
