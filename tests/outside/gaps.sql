-- The slots of runs and what pieces fill of them, worked out by SQLite alone
-- over a guide.db, from what the schema says of its tables. gaps-sql.test
-- makes the temporary tables of pieces before, and asks `answer` after.
--
--	piece(id, position, form, use, named, anomalous, altered, punched,
--		cased, style, scale, step)
--	said(piece, part, how, id)	how: known, one_of, not, unknown
--	stuck(piece, sticker)		sticker NULL: the list is empty
--	lies_with(piece, accessory, original)
--
-- `use` is held or coming, others are not there; `named` says whether anything
-- is known of what it is; altered and punched are 0 no, 1 perhaps or not said,
-- 2 yes.

-- Every way a card can be: a combination, or a pairing that lists none.
CREATE TEMP TABLE way AS
SELECT row_number() OVER (ORDER BY p.id, c.position) AS way, p.id AS pairing,
	c.key, c.position, p.character, p.cardback, b.market, b.offer,
	c.front, c.blister, c.variant, c.sticker, c.anomaly,
	CASE WHEN p.concluded <> 'accepted' THEN p.concluded
	ELSE coalesce(c.concluded, p.concluded) END AS concluded,
	EXISTS (SELECT 1 FROM pairing_looked_for AS l WHERE l.pairing = p.id)
	OR EXISTS (SELECT 1 FROM pairing_combinations_looked_for AS l
	WHERE l.pairing = p.id AND l.combinations_position = c.position)
	AS looked_for
FROM pairing AS p JOIN cardback AS b ON b.id = p.cardback
LEFT JOIN pairing_combinations AS c ON c.pairing = p.id;
CREATE INDEX temp.way_by_character ON way (character);

-- Whether a piece may have a certain part: nothing said excludes nothing.
CREATE TEMP VIEW excluded AS
SELECT piece, part, how, id FROM said WHERE how = 'not';
CREATE TEMP VIEW named AS
SELECT piece, part, id FROM said WHERE how IN ('known', 'one_of');

-- A reading of a piece: with one of its stickers, or as it is.
CREATE TEMP TABLE reading AS
SELECT p.id AS piece, s.sticker, EXISTS (SELECT 1 FROM stuck AS t
	WHERE t.piece = p.id) AS listed
FROM piece AS p LEFT JOIN stuck AS s ON s.piece = p.id WHERE p.named;

CREATE TEMP TABLE fits AS
SELECT r.piece, r.sticker AS reading, w.way, w.pairing, w.key, w.position,
	w.character, w.cardback, w.market, w.offer, w.anomaly, w.concluded,
	coalesce(w.front, f.id) AS front, coalesce(w.blister, b.id) AS blister,
	coalesce(w.variant, v.id) AS variant,
	coalesce(w.sticker, r.sticker) AS sticker
FROM reading AS r JOIN piece AS p ON p.id = r.piece JOIN way AS w
LEFT JOIN named AS f ON w.front IS NULL AND f.piece = r.piece
	AND f.part = 'front' AND f.id IN (SELECT x.id FROM front AS x
	WHERE x.character = w.character AND x.market = w.market)
LEFT JOIN named AS b ON w.blister IS NULL AND b.piece = r.piece
	AND b.part = 'blister'
LEFT JOIN named AS v ON w.variant IS NULL AND v.piece = r.piece
	AND v.part = 'variant' AND v.id IN (SELECT x.id FROM variant AS x
	WHERE x.character = w.character)
WHERE (NOT EXISTS (SELECT 1 FROM named AS n WHERE n.piece = r.piece
	AND n.part = 'character')
	OR w.character IN (SELECT n.id FROM named AS n
	WHERE n.piece = r.piece AND n.part = 'character'))
AND (NOT EXISTS (SELECT 1 FROM named AS n WHERE n.piece = r.piece
	AND n.part = 'cardback')
	OR w.cardback IN (SELECT n.id FROM named AS n
	WHERE n.piece = r.piece AND n.part = 'cardback'))
-- Of parts that may be left open, what is named has to be found somewhere.
AND (NOT EXISTS (SELECT 1 FROM named AS n WHERE n.piece = r.piece
	AND n.part = 'front')
	OR coalesce(w.front, f.id) IN (SELECT n.id FROM named AS n
	WHERE n.piece = r.piece AND n.part = 'front'))
AND (NOT EXISTS (SELECT 1 FROM named AS n WHERE n.piece = r.piece
	AND n.part = 'blister')
	OR coalesce(w.blister, b.id) IN (SELECT n.id FROM named AS n
	WHERE n.piece = r.piece AND n.part = 'blister'))
AND (NOT EXISTS (SELECT 1 FROM named AS n WHERE n.piece = r.piece
	AND n.part = 'variant')
	OR coalesce(w.variant, v.id) IN (SELECT n.id FROM named AS n
	WHERE n.piece = r.piece AND n.part = 'variant'))
AND NOT EXISTS (SELECT 1 FROM excluded AS x WHERE x.piece = r.piece
	AND (x.part, x.id) IN (VALUES ('character', w.character),
	('cardback', w.cardback), ('front', w.front), ('blister', w.blister),
	('variant', w.variant)))
AND (w.sticker IS NULL OR NOT r.listed OR w.sticker = r.sticker)
AND (w.anomaly IS NULL OR (p.anomalous AND (
	EXISTS (SELECT 1 FROM named AS n WHERE n.piece = r.piece
	AND n.part = 'anomaly' AND n.id = w.anomaly))));

-- What cannot exist is no reading as long as something else is.
DELETE FROM fits WHERE concluded IN ('disproved', 'never-issued')
AND (piece, coalesce(reading, '')) IN (SELECT piece, coalesce(reading, '')
	FROM fits WHERE concluded IS NULL
	OR concluded NOT IN ('disproved', 'never-issued'));
DELETE FROM fits WHERE anomaly IS NULL
AND (piece, coalesce(reading, '')) IN (SELECT piece, coalesce(reading, '')
	FROM fits WHERE anomaly IS NOT NULL);

CREATE INDEX temp.fits_by_piece ON fits (piece, reading);

-- Things that stand for themselves, as ways of their own.
CREATE TEMP TABLE thing AS
SELECT 'cardback' AS kind, id, NULL AS character, id AS cardback, market,
	offer, NULL AS front, NULL AS variant, concluded
FROM cardback
UNION ALL SELECT 'package', p.id, c.characters, NULL, p.market, p.offer, NULL,
	NULL, p.concluded
FROM package AS p LEFT JOIN package_characters AS c ON c.package = p.id
UNION ALL SELECT 'preproduction', p.id, coalesce(f.character, v.character),
	b.id, coalesce(b.market, f.market), NULL, f.id, v.id, p.concluded
FROM preproduction AS p LEFT JOIN preproduction_of AS o
	ON o.preproduction = p.id
LEFT JOIN cardback AS b ON o.of_kind = 'cardback' AND b.id = o.of_id
LEFT JOIN front AS f ON o.of_kind = 'front' AND f.id = o.of_id
LEFT JOIN variant AS v ON o.of_kind = 'variant' AND v.id = o.of_id;

-- All that a run may select, under one set of columns. Ways of the guide have
-- no piece; `row` tells apart what a piece may be.
CREATE TEMP TABLE chosen AS
SELECT NULL AS piece, NULL AS reading, way AS row, pairing, key, position,
	character, cardback, market, offer, anomaly, concluded, front, blister,
	variant, sticker, looked_for, NULL AS kind, NULL AS id
FROM way
UNION ALL SELECT piece, reading, rowid, pairing, key, position, character,
	cardback, market, offer, anomaly, concluded, front, blister, variant,
	sticker, 0, NULL, NULL
FROM fits
UNION ALL SELECT NULL, NULL, -rowid, NULL, NULL, NULL, character, cardback,
	market, offer, NULL, concluded, front, NULL, variant, NULL, 0, kind,
	id
FROM thing;
ALTER TABLE chosen ADD COLUMN added;
UPDATE chosen SET added = (SELECT s.offer FROM sticker AS s
	WHERE s.id = chosen.sticker);

CREATE TEMP TABLE selected AS
SELECT r.id AS run, c.*
FROM run AS r JOIN chosen AS c
WHERE (c.kind IS NULL OR c.kind = r.collect)
AND (c.anomaly IS NULL OR r.anomalies IS 1 OR r.collect = 'anomaly')
AND (r.id NOT IN (SELECT run FROM run_characters) OR EXISTS (SELECT 1
	FROM run_characters WHERE run = r.id AND characters = c.character))
AND (r.id NOT IN (SELECT run FROM run_markets) OR EXISTS (SELECT 1
	FROM run_markets WHERE run = r.id AND markets = c.market))
AND (r.id NOT IN (SELECT run FROM run_cardbacks) OR EXISTS (SELECT 1
	FROM run_cardbacks WHERE run = r.id AND cardbacks = c.cardback))
AND (r.id NOT IN (SELECT run FROM run_fronts) OR EXISTS (SELECT 1
	FROM run_fronts WHERE run = r.id AND fronts = c.front))
AND (r.id NOT IN (SELECT run FROM run_blisters) OR EXISTS (SELECT 1
	FROM run_blisters WHERE run = r.id AND blisters = c.blister))
AND (r.id NOT IN (SELECT run FROM run_variants) OR EXISTS (SELECT 1
	FROM run_variants WHERE run = r.id AND variants = c.variant))
AND (r.id NOT IN (SELECT run FROM run_stickers) OR EXISTS (SELECT 1
	FROM run_stickers WHERE run = r.id AND stickers = c.sticker))
AND (r.id NOT IN (SELECT run FROM run_packages) OR EXISTS (SELECT 1
	FROM run_packages WHERE run = r.id AND c.kind = 'package'
	AND packages = c.id))
AND (r.id NOT IN (SELECT run FROM run_preproductions) OR EXISTS (SELECT 1
	FROM run_preproductions WHERE run = r.id AND c.kind = 'preproduction'
	AND preproductions = c.id))
AND (r.id NOT IN (SELECT run FROM run_offers) OR EXISTS (SELECT 1
	FROM run_offers WHERE run = r.id AND offers IN (c.offer, c.added)))
AND (r.id NOT IN (SELECT run FROM run_concluded) OR EXISTS (SELECT 1
	FROM run_concluded WHERE run = r.id
	AND concluded = coalesce(c.concluded, 'accepted')))
AND NOT EXISTS (SELECT 1 FROM run_tags AS t WHERE t.run = r.id
	AND NOT EXISTS (SELECT 1 FROM character_tags AS g
	WHERE g.character = c.character AND g.tags = t.tags))
AND (coalesce(r."from", r."to") IS NULL OR EXISTS (SELECT 1
	FROM cardback AS b WHERE b.id = c.cardback
	AND NOT coalesce(b.to_last < r.from_first, 0)
	AND NOT coalesce(b.from_first > r.to_last, 0)));

-- The values of what a run collects. Two for a card with two offers.
CREATE TEMP TABLE gives AS
SELECT s.run, s.piece, s.reading, s.row, s.concluded, s.looked_for,
	r.collect AS kind, NULL AS key,
	CASE r.collect WHEN 'character' THEN s.character
	WHEN 'cardback' THEN s.cardback WHEN 'front' THEN s.front
	WHEN 'variant' THEN s.variant WHEN 'blister' THEN s.blister
	WHEN 'sticker' THEN s.sticker WHEN 'pairing' THEN s.pairing
	WHEN 'anomaly' THEN s.anomaly WHEN 'market' THEN s.market
	WHEN 'offer' THEN s.offer ELSE s.id END AS id
FROM selected AS s JOIN run AS r ON r.id = s.run
WHERE r.collect NOT IN ('combination', 'accessory')
UNION ALL SELECT s.run, s.piece, s.reading, s.row, s.concluded, s.looked_for,
	'offer', NULL, s.added
FROM selected AS s JOIN run AS r ON r.id = s.run WHERE r.collect = 'offer'
UNION ALL SELECT s.run, s.piece, s.reading, s.row, s.concluded, s.looked_for,
	'pairing', s.key, s.pairing
FROM selected AS s JOIN run AS r ON r.id = s.run
WHERE r.collect = 'combination' AND s.key IS NOT NULL
UNION ALL SELECT s.run, s.piece, s.reading, s.row, s.concluded, s.looked_for,
	'accessory', NULL, a.accessories
FROM selected AS s JOIN run AS r ON r.id = s.run
JOIN pairing_combinations_accessories AS a ON a.pairing = s.pairing
	AND a.combinations_position = s.position
WHERE r.collect = 'accessory'
UNION ALL SELECT s.run, s.piece, s.reading, s.row, s.concluded, s.looked_for,
	'accessory', NULL, a.accessories
FROM selected AS s JOIN run AS r ON r.id = s.run
JOIN character_accessories AS a ON a.character = s.character
WHERE r.collect = 'accessory' AND NOT EXISTS (SELECT 1
	FROM pairing_combinations_accessories AS o
	WHERE o.pairing = s.pairing AND o.combinations_position = s.position);
DELETE FROM gives WHERE id IS NULL;

-- A slot is as sure as the surest way that gives it.
CREATE TEMP TABLE slot AS
SELECT run, kind, id, key, min(CASE
	WHEN concluded IS NULL THEN looked_for
	WHEN concluded = 'accepted' THEN 0 WHEN concluded = 'open' THEN 2
	WHEN concluded = 'doubted' THEN 3 ELSE 4 END) AS doubt
FROM gives WHERE piece IS NULL AND concluded IS NOT 'never-issued'
GROUP BY run, kind, id, key;
CREATE INDEX temp.slot_by_id ON slot (run, kind, id, key);

-- Completeness: each accessory of each way, and whether it is there.
CREATE TEMP TABLE part_of_whole AS
SELECT f.piece, f.rowid AS row, a.accessories AS accessory
FROM fits AS f JOIN pairing_combinations_accessories AS a
	ON a.pairing = f.pairing AND a.combinations_position = f.position
UNION ALL SELECT f.piece, f.rowid, a.accessories
FROM fits AS f JOIN character_accessories AS a ON a.character = f.character
WHERE NOT EXISTS (SELECT 1 FROM pairing_combinations_accessories AS o
	WHERE o.pairing = f.pairing AND o.combinations_position = f.position);
CREATE TEMP TABLE whole_in AS
SELECT f.piece, f.rowid AS row, min(CASE WHEN w.accessory IS NULL THEN 2
	WHEN l.piece IS NULL THEN CASE WHEN p.form LIKE 'loose%' THEN 1 ELSE 2
	END WHEN coalesce(l.original, 'doubtful') = 'doubtful' THEN 1
	WHEN l.original = 'original' THEN 2 ELSE 0 END) AS truth
FROM fits AS f JOIN piece AS p ON p.id = f.piece
LEFT JOIN part_of_whole AS w ON w.row = f.rowid
LEFT JOIN lies_with AS l ON l.piece = f.piece AND l.accessory = w.accessory
GROUP BY f.rowid;
CREATE TEMP TABLE whole AS
SELECT p.id AS piece, CASE WHEN p.form = 'card-only' THEN 0
	WHEN count(w.row) = 0 OR min(w.truth) = 2 THEN 2
	WHEN max(w.truth) = 0 THEN 0 ELSE 1 END AS truth
FROM piece AS p LEFT JOIN whole_in AS w ON w.piece = p.id GROUP BY p.id;

-- What a piece may fill: surely, if all that it may be does.
CREATE TEMP TABLE hit AS
SELECT g.run, g.kind, g.id, g.key, g.piece, max(g.sure) AS sure
FROM (SELECT g.run, g.kind, g.id, g.key, g.piece,
		count(DISTINCT g.row) = (SELECT count(*) FROM fits AS f
		WHERE f.piece = g.piece AND f.reading IS g.reading) AS sure
	FROM gives AS g JOIN run AS r ON r.id = g.run
	WHERE g.piece IS NOT NULL AND r.collect <> 'accessory'
	GROUP BY g.run, g.kind, g.id, g.key, g.piece, g.reading
	UNION ALL SELECT r.id, 'accessory', l.accessory, NULL, l.piece,
		l.original IS NULL OR l.original = 'original'
	FROM run AS r JOIN lies_with AS l WHERE r.collect = 'accessory'
	AND (l.original IS NULL OR l.original IN ('original', 'doubtful'))
	UNION ALL SELECT r.id, s.part, s.id, NULL, s.piece, s.how = 'known'
	FROM run AS r JOIN said AS s ON s.part = r.collect
	WHERE r.collect IN ('package', 'preproduction')
	AND s.how IN ('known', 'one_of')) AS g
JOIN slot AS s ON s.run = g.run AND s.kind = g.kind AND s.id = g.id
	AND s.key IS g.key
GROUP BY g.run, g.kind, g.id, g.key, g.piece;

-- How a piece meets a run's conditions: 0 not, 1 perhaps, 2 surely. What is
-- asked of cases is that they are of one style: of most of the pieces.
CREATE TEMP TABLE met AS
SELECT r.id AS run, p.id AS piece, p.position, p.use,
	min(CASE WHEN r.collect IN ('cardback', 'front', 'offer', 'sticker',
		'market') AND p.form NOT IN ('carded', 'carded-cased',
		'card-only') THEN 0
	WHEN r.collect IN ('pairing', 'combination', 'blister')
		AND p.form NOT IN ('carded', 'carded-cased') THEN 0
	WHEN r.form IN ('carded', 'loose') AND p.form NOT IN (r.form,
		r.form || '-cased') THEN 0
	WHEN r.form NOT IN ('carded', 'loose') AND p.form <> r.form THEN 0
	ELSE 2 END,
	CASE WHEN p.anomalous AND r.anomalies IS NOT 1
		AND r.collect <> 'anomaly' THEN 0 ELSE 2 END,
	CASE WHEN r.altered IS 1 THEN 2 ELSE 2 - p.altered END,
	CASE WHEN r.unpunched IS 1 THEN CASE WHEN p.form NOT IN ('carded',
		'carded-cased', 'card-only') THEN 0 ELSE 2 - p.punched END
	ELSE 2 END,
	CASE WHEN r.complete IS 1 THEN w.truth ELSE 2 END,
	CASE WHEN r.least_scale IS NULL THEN 2
	WHEN p.scale IS NOT r.least_scale THEN 0 WHEN p.step IS NULL THEN 1
	ELSE 2 * coalesce((SELECT mine.position <= asked.position
		FROM scale_steps AS mine JOIN scale_steps AS asked
		ON asked.scale = mine.scale WHERE mine.scale = p.scale
		AND mine.steps = p.step AND asked.steps = r.least_step), 0)
	END) AS truth
FROM run AS r JOIN piece AS p JOIN whole AS w ON w.piece = p.id
GROUP BY r.id, p.id;
CREATE TEMP TABLE row_style AS
SELECT r.id AS run, coalesce(r.case_style, (SELECT p.style
	FROM piece AS p JOIN met AS m ON m.piece = p.id AND m.run = r.id
	WHERE m.truth > 0 AND p.style IS NOT NULL AND p.id IN (SELECT piece
		FROM hit WHERE run = r.id)
	GROUP BY p.style ORDER BY count(*) DESC, p.style LIMIT 1)) AS style
FROM run AS r WHERE r.same_case IS 1 OR r.case_style IS NOT NULL;
UPDATE met SET truth = min(truth, (SELECT CASE WHEN NOT p.cased THEN 0
	WHEN p.style IS NULL OR s.style IS NULL THEN 1
	ELSE 2 * (p.style = s.style) END FROM piece AS p JOIN row_style AS s
	WHERE p.id = met.piece AND s.run = met.run))
WHERE run IN (SELECT run FROM row_style);

CREATE TEMP TABLE filled AS
SELECT h.run, h.kind, h.id, h.key, h.piece, m.position,
	CASE WHEN m.use <> 'held' OR m.truth = 0 THEN 0
	WHEN h.sure AND m.truth = 2 THEN 2 ELSE 1 END AS truth
FROM hit AS h JOIN met AS m ON m.run = h.run AND m.piece = h.piece;
CREATE INDEX temp.filled_by_slot ON filled (run, kind, id, key);

CREATE TEMP VIEW answer AS
SELECT s.run, s.kind || '/' || s.id || coalesce('.' || s.key, '') AS slot,
	CASE max(coalesce(f.truth, 0)) WHEN 2 THEN 'held'
	WHEN 1 THEN 'possible'
	ELSE CASE WHEN s.doubt > 0 THEN 'may not exist' ELSE 'missing' END
	END AS state,
	(SELECT group_concat(piece, '; ') FROM (SELECT piece FROM filled AS g
	WHERE g.run = s.run AND g.kind = s.kind AND g.id = s.id
	AND g.key IS s.key AND g.truth > 0 ORDER BY g.position)) AS pieces
FROM slot AS s LEFT JOIN filled AS f ON f.run = s.run AND f.kind = s.kind
	AND f.id = s.id AND f.key IS s.key
GROUP BY s.run, s.kind, s.id, s.key;
