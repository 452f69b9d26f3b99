-- Which blisters are known in which market, and on how many pairings?
--
-- One row a blister and market. A single pairing may be a surprise worth a
-- second look, or a mistake.
SELECT b.called AS blister, m.called AS market,
	count(DISTINCT p.id) AS pairings,
	min(c."from_first") AS earliest, max(c."to_last") AS latest
FROM pairing_combinations AS k
JOIN pairing AS p ON p.id = k.pairing
JOIN cardback AS c ON c.id = p.cardback
JOIN market AS m ON m.id = c.market
JOIN blister AS b ON b.id = k.blister
GROUP BY b.id, m.id
ORDER BY b.rowid, m.rowid;
