-- Which card backs have different labels in different schemes?
--
-- One row a card back. Before you trust a label in an old list, find out which
-- scheme the list uses.
SELECT c.id, c.market, (SELECT group_concat(said, ', ')
	FROM (SELECT l.label || ' (' || s.name || ')' AS said
		FROM cardback_labels AS l JOIN scheme AS s ON s.id = l.scheme
		WHERE l.cardback = c.id ORDER BY l.position)) AS labels
FROM cardback AS c
WHERE (SELECT count(DISTINCT label) FROM cardback_labels
	WHERE cardback = c.id) > 1
ORDER BY c.rowid;
