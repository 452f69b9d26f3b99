-- What is missing from a run, given what I hold?
--
-- One row a gap. List your pieces in the first statement, by the kind and id
-- of what fills a slot; nothing is written to the guide. A gap that is
-- "unsure" may not exist at all: `doubt` says why. What was disproved is left
-- out. `hangtab gaps` does the same and knows what to make of a piece that is
-- only half known.
CREATE TEMP TABLE held (kind TEXT, id TEXT, key TEXT);
INSERT INTO held VALUES
	('cardback', 'home-24b', NULL),
	('cardback', 'home-11a', NULL);
SELECT s.run, s.position, s.name, s.standing, s.doubt
FROM run_slot AS s
WHERE s.run = 'home-backs'
AND NOT EXISTS (SELECT 1 FROM held AS h
	WHERE h.kind = s.slot_kind AND h.id = s.slot_id
	AND h.key IS s.slot_key)
AND (s.doubt IS NULL OR s.doubt NOT LIKE 'disproved%')
ORDER BY s.position;
