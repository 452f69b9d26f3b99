-- Which records have these words, best first?
--
-- The table "search" holds every name, label and text. A hit in a name weighs
-- 10, in a label 8, elsewhere 1; a smaller rank is a better one. Capitals and
-- accents do not matter if you type without them; a star at the end of a word
-- finds what begins so. `hangtab find` asks in the same way, for names first.
SELECT s.kind, s.id, r.called, round(s.rank, 2) AS rank
FROM search AS s
JOIN record AS r USING (kind, id)
WHERE search MATCH 'winder AND nine'
ORDER BY s.rank, s.rowid
LIMIT 20;
