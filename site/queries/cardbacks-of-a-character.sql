-- Which card backs is a character known on?
--
-- One row a card back. "concluded" is what the guide makes of it: count on
-- what is accepted, ask about the rest. Put any name of the character, in any
-- language, in place of Tamsin Quoy.
SELECT cardback_called, market, number, seen, concluded, cardback
FROM cardbacks_of_character
WHERE character IN (SELECT character FROM character_names
	WHERE text = 'Tamsin Quoy')
ORDER BY market, number, cardback;
