-- Which anomalies should I ask about before I buy a character?
--
-- One row an anomaly and card back. "standing" is what most buyers make of
-- it; "tells" is what to ask the seller for a photograph of. Pieces seen are
-- those that were told apart, without the doubted ones: none seen does not
-- mean that there is none.
SELECT a.called AS anomaly, w.title AS standing, c.called AS cardback,
	s.specimens AS seen, s.last_seen,
	(SELECT group_concat(tells, '; ') FROM (SELECT tells
		FROM anomaly_tells WHERE anomaly = a.id
		ORDER BY position)) AS tells
FROM anomaly_pairings AS ap
JOIN anomaly AS a ON a.id = ap.anomaly
JOIN pairing AS p ON p.id = ap.pairings
JOIN cardback AS c ON c.id = p.cardback
JOIN guide_word AS w ON w.vocabulary = 'standing' AND w.word = a.standing
LEFT JOIN anomaly_pairing_seen AS s
	ON s.anomaly = a.id AND s.pairing = p.id
WHERE p.character IN (SELECT character FROM character_names
	WHERE text = 'Winder Nine')
ORDER BY a.standing, a.called, c.number, c.id;
