-- Which card backs is a character known on?
--
-- One row a card back, in the order of numbers pictured. "concluded" says what
-- the guide makes of it: count on the accepted ones, ask about the others. Put
-- the id or any name of the character in place of 'Tamsin Quoy'.
SELECT cardback, cardback_called, market, number, seen, concluded
FROM cardbacks_of_character
WHERE character IN (SELECT character FROM character_names
	WHERE text = 'Tamsin Quoy')
ORDER BY market, number, cardback;
