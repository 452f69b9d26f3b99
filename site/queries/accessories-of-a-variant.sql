-- What should lie with a loose figure?
--
-- One row a figure variant and accessory, by what was found with it on
-- sealed cards; "cards" says on how many pairings. An accessory on few of them
-- may have been packed for a short time. Copies are common: see the imitations.
SELECT v.called AS variant, a.called AS accessory,
	count(DISTINCT k.pairing) AS cards
FROM pairing_combinations AS k
JOIN pairing_combinations_accessories AS ka
	ON ka.pairing = k.pairing AND ka.combinations_position = k.position
JOIN variant AS v ON v.id = k.variant
JOIN accessory AS a ON a.id = ka.accessories
GROUP BY v.id, a.id
ORDER BY v.rowid, a.rowid;
