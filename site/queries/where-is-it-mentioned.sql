-- Which essays and notes mention an anomaly?
--
-- One row a text and anomaly that it links to.
SELECT DISTINCT f.kind, f.called AS text, t.called AS anomaly
FROM mention AS m
JOIN record AS f ON f.kind = m.kind AND f.id = m.id
JOIN record AS t ON t.kind = m.to_kind AND t.id = m.to_id
WHERE m.to_kind = 'anomaly'
ORDER BY f.kind, f.place, t.place;
