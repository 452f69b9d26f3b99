-- How many sightings are there of each year?
--
-- One row a year. "pieces" counts specimens once, however often they were
-- seen that year. A year with few sightings had few lists, not few pieces.
SELECT substr(date_first, 1, 4) AS year, count(*) AS sightings,
	count(DISTINCT specimen) AS pieces, count(DISTINCT source) AS lists
FROM sighting
GROUP BY year
ORDER BY year;
