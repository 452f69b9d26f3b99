-- Where did a record go that I had noted by its id?
--
-- One row an id that is no longer current. Ids are never given out again, so
-- what you have noted stays good.
SELECT kind, was, why, to_kind, to_id, reason
FROM redirect
ORDER BY kind, was;
