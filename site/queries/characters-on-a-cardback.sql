-- Which characters are known on a card back?
--
-- One row a character; "pictured" says whether the back also shows the figure.
-- A label names a card back only within its scheme, so another scheme's 24B
-- may be listed as well: "cardback" tells them apart.
SELECT p.cardback, c.called AS character_called, p.seen, p.concluded,
	EXISTS (SELECT 1 FROM cardback_pictures AS i
		WHERE i.cardback = p.cardback
		AND i.pictures = p.character) AS pictured
FROM pairing AS p
JOIN character AS c ON c.id = p.character
WHERE p.cardback IN (SELECT cardback FROM cardback_labels
	WHERE label = '24B')
ORDER BY p.cardback, c.rowid;
