-- Which pieces have had more than one certificate?
--
-- One row a certificate of such a piece, oldest first. A population report
-- counts each of them: it counts certificates, not pieces.
SELECT s.called AS specimen, v.called AS service, c.date, c.grade, s.id
FROM specimen_certificates AS c
JOIN specimen AS s ON s.id = c.specimen
JOIN service AS v ON v.id = c.service
WHERE c.specimen IN (SELECT specimen FROM specimen_certificates
	GROUP BY specimen HAVING count(*) > 1)
ORDER BY s.rowid, c.date_first, c.position;
