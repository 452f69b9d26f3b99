-- What tables are there, and what is in them?
--
-- One row a column. The database describes itself: guide_relation lists the
-- tables, guide_column their columns, guide_kind the kinds of record and
-- guide_word the words of vocabularies. A date stands as written, and as the
-- first and the last day that it may mean.
SELECT r.relation, c."column", c.title, c.target AS leads_to, c.says
FROM guide_relation AS r
JOIN guide_column AS c ON c.relation = r.relation
ORDER BY r.relation, c.position;
