/*
 * Every diagnostic the compiler knows: CODE(enum name, code, severity,
 * headline), in the order of the stages that raise them. Codes are permanent
 * and never reused. Each has a folder tests/codes/CODE with a failing and a
 * mended sample, and a place that raises it; `make check` compares the three.
 *
 * There is no include guard: the file is a list, included where it is needed
 * with CODE defined.
 */

/* read */
CODE(MISSING_CORPUS, "missing-corpus", ERROR,
	"the corpus cannot be found")
CODE(EMPTY_CORPUS, "empty-corpus", ERROR,
	"the corpus has no records")
CODE(UNREADABLE_FILE, "unreadable-file", ERROR,
	"a file cannot be read")
CODE(NOT_UTF8, "not-utf8", ERROR,
	"a file is not UTF-8 text")
CODE(YAML_SYNTAX, "yaml-syntax", ERROR,
	"the file is not well-formed YAML")
CODE(YAML_FEATURE, "yaml-feature", ERROR,
	"a YAML feature that records do not use")
CODE(TOO_DEEP, "too-deep", ERROR,
	"values are nested too deeply")
CODE(DUPLICATE_KEY, "duplicate-key", ERROR,
	"a field is given twice")
CODE(UNKNOWN_KIND, "unknown-kind", ERROR,
	"a folder or heading names no kind of record")
CODE(NOT_RECORDS, "not-records", ERROR,
	"a file holds something other than records")
CODE(STRAY_FILE, "stray-file", WARNING,
	"a file in a kind's folder holds no records and is not read")
CODE(UNKNOWN_FORMAT, "unknown-format", ERROR,
	"the corpus is in a format this compiler does not know")
CODE(BAD_TABLE, "bad-table", ERROR,
	"a spreadsheet is not a row of headings with rows under it")
CODE(ESSAY_HEADING, "essay-heading", ERROR,
	"an essay does not begin with a heading")
CODE(PROSE_HTML, "prose-html", ERROR,
	"prose holds raw HTML")
CODE(PROSE_IMAGE, "prose-image", ERROR,
	"prose holds a picture")
CODE(PROSE_LINK, "prose-link", ERROR,
	"a link in prose goes where a guide cannot follow")

/* shape */
CODE(SCHEMA_KIND, "schema-kind", ERROR,
	"a schema file does not describe a kind")
CODE(SCHEMA_FIELD, "schema-field", ERROR,
	"a field of the schema contradicts itself")
CODE(SCHEMA_NAME, "schema-name", ERROR,
	"the schema lacks a field that the compiler studies")
CODE(UNKNOWN_FIELD, "unknown-field", ERROR,
	"a field that the kind does not have")
CODE(MISSING_FIELD, "missing-field", ERROR,
	"a required field is missing")
CODE(WRONG_SHAPE, "wrong-shape", ERROR,
	"a list, mapping or single value where another was expected")
CODE(EMPTY_VALUE, "empty-value", ERROR,
	"a field is there but holds nothing")
CODE(BAD_ID, "bad-id", ERROR,
	"an id is not made of lower-case letters, digits and hyphens")
CODE(BAD_WHOLE, "bad-whole", ERROR,
	"not a whole number")
CODE(OUT_OF_BOUNDS, "out-of-bounds", ERROR,
	"a number is outside the bounds of its field")
CODE(BAD_QUANTITY, "bad-quantity", ERROR,
	"not a number with a unit")
CODE(BAD_DATE, "bad-date", ERROR,
	"not a date")
CODE(BAD_YESNO, "bad-yesno", ERROR,
	"neither yes nor no")
CODE(UNKNOWN_WORD, "unknown-word", ERROR,
	"not a word of the field's vocabulary")
CODE(BAD_IDENTITY, "bad-identity", ERROR,
	"not an identity, known or partial")
CODE(BAD_BARCODE, "bad-barcode", ERROR,
	"not the digits of a UPC-A or EAN-13")
CODE(BAD_AMOUNT, "bad-amount", ERROR,
	"not an amount of money")
CODE(BAD_TEXT, "bad-text", ERROR,
	"text holds a character that cannot be printed")

/* link */
CODE(DUPLICATE_ID, "duplicate-id", ERROR,
	"two records have one id")
CODE(UNKNOWN_RECORD, "unknown-record", ERROR,
	"a reference names no record")
CODE(WRONG_KIND, "wrong-kind", ERROR,
	"a reference names a record of a kind that is not allowed here")
CODE(BROKEN_LINK, "broken-link", ERROR,
	"a link in prose names no record")
CODE(NOT_UNIQUE, "not-unique", ERROR,
	"a value that must be unique is used twice")
CODE(FORMERLY_CIRCULAR, "formerly-circular", ERROR,
	"former ids lead round in a circle")
CODE(FORMERLY_TAKEN, "formerly-taken", ERROR,
	"a former id is another record's id")
CODE(VANISHED_ID, "vanished-id", ERROR,
	"an id of the last edition is gone")
CODE(REUSED_ID, "reused-id", ERROR,
	"an id that was given up is used again")
CODE(FORMER_ID, "former-id", WARNING,
	"a reference uses a former id")
CODE(RETIRED_ID, "retired-id", WARNING,
	"one of your pieces is described by a record that was withdrawn")

/* sense: impossible */
CODE(LABEL_TWICE, "label-twice", ERROR,
	"one scheme gives a label to two card backs of a market")
CODE(DATES_OUT_OF_ORDER, "dates-out-of-order", ERROR,
	"an end comes before its beginning under every reading")
CODE(UNKNOWN_COUNTRY, "unknown-country", ERROR,
	"not a country code of ISO 3166")
CODE(UNKNOWN_LANGUAGE, "unknown-language", ERROR,
	"not a language tag of BCP 47")
CODE(UNKNOWN_CURRENCY, "unknown-currency", ERROR,
	"not a currency code of ISO 4217")
CODE(WITHDRAWN_CODE, "withdrawn-code", ERROR,
	"a code that was withdrawn before the date it is used for")
CODE(GRADE_NOT_ON_SCALE, "grade-not-on-scale", ERROR,
	"a grade is not a step of the service's scale")
CODE(ESTIMATE_BELOW_SEEN, "estimate-below-seen", ERROR,
	"an estimate is below what had been seen when it was made")

/* sense: surprises */
CODE(LABEL_SPELLING, "label-spelling", WARNING,
	"a label is spelt otherwise than its number and letter")
CODE(LETTERS_HOLE, "letters-hole", WARNING,
	"a scheme's letters skip one")
CODE(PICTURES_COUNT, "pictures-count", WARNING,
	"a complete list of pictured figures differs from the number")
CODE(CHECK_DIGIT, "check-digit", WARNING,
	"a barcode's check digit does not follow from its digits")
CODE(CHARACTER_AFTER_CARDBACK, "character-after-cardback", WARNING,
	"a character was released after the card back's last year")
CODE(BLISTER_WRONG_MARKET, "blister-wrong-market", WARNING,
	"a blister comes from a factory that did not seal for the market")
CODE(ESTIMATE_OVERTAKEN, "estimate-overtaken", WARNING,
	"more have been seen since than an estimate allows")
CODE(OVERALL_OUTSIDE_SUBGRADES, "overall-outside-subgrades", WARNING,
	"an overall grade lies outside the range of its subgrades")
CODE(COUNT_FELL, "count-fell", WARNING,
	"a count of a population report is lower than in the one before")
CODE(STICKER_AFTER_PRINTED, "sticker-after-printed", WARNING,
	"a stickered card is later than the printed one")
CODE(VARIANT_BEFORE_KNOWN, "variant-before-known", WARNING,
	"a variant is on an earlier card back than it is known from")
CODE(NOT_TOLD_APART, "not-told-apart", WARNING,
	"no recorded feature tells two things apart")

/* study */
CODE(ESTIMATE_DISAGREES, "estimate-disagrees", WARNING,
	"a quoted estimate lies outside what is computed")

/* what any of them may leave */
CODE(EXCEPTION_UNUSED, "exception-unused", WARNING,
	"an exception excuses nothing")
