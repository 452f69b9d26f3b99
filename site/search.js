/*
 * Search as you type, without a network: the same answer, in the same order,
 * as `hangtab find` gives (compiler/command/finding.c; tests/browser/search
 * holds one against the other). The index is in scripts under look/find/, and
 * only those that a question needs are loaded; classic scripts, because these
 * load from a folder on a stick as well:
 *
 *   head    counts, weights, kinds, and what each shard of terms begins with
 *   nI, wI  terms of names and labels, and of all other words
 *   dI      what records are called, so many to a shard
 *   vI      all words of I bytes, loaded when nothing is found
 *   foldI   how characters outside ASCII are read
 *
 * Passes: names, labels, names begun, any word, and any word begun if there
 * is nothing else. Within a pass by BM25 to 1e-9, then by place in the guide.
 */
"use strict";
var hangtab = (function () {
	const K1 = 1.2, B = 0.75, NOT_ALL = 2147483647;
	const DIGITS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz" +
		"0123456789-_";
	const NAME = 0, LABEL = 1, BEGUN = 2, WORDS = 3, WORDS_BEGUN = 4;
	const parts = {}, waiting = {};
	const runs = {};	/* by name of their part */
	let head;

	/* Text as UTF-8, a byte a character: what order and edits go by. */
	const bytes = (text) => unescape(encodeURIComponent(text));

	/** What a shard's script calls. */
	function put(name, body) {
		parts[name] = body;
		if (name === "head")
			begin(body);
	}

	function begin(body) {
		head = body;
		for (const family of ["n", "w"])
			head[family] = head[family].split(" ").map(bytes);
	}

	/** Loads parts of the index that are not there yet. */
	function need(names) {
		return Promise.all(names.map((name) => {
			if (name in parts)
				return null;
			if (!(name in waiting))
				waiting[name] = api.load(name).then(() => {
					delete waiting[name];
				}, (error) => {
					delete waiting[name];
					throw error;
				});
			return waiting[name];
		}));
	}

	/** A reader of the numbers in a text. */
	function numbers(text, at) {
		let i = at;
		return {
			more: () => i < text.length,
			next() {
				let value = 0, shift = 0, digit;
				do {
					digit = DIGITS.indexOf(text[i++]);
					value += (digit & 31) * 2 ** shift;
					shift += 5;
				} while (digit > 31);
				return value;
			},
		};
	}

	/* Runs of characters: [from, to, sort, value]. */
	function unpack(body) {
		const [text, strings] = body.split("|"), found = [];
		const read = numbers(text, 0), list = strings.split(" ");
		let after = 0x80, place = 0;
		while (read.more()) {
			const from = after + read.next(), to = from + read.next();
			const sort = read.next();
			found.push([from, to, sort, sort === 6 ? list[place++] :
				sort > 2 ? read.next() : 0]);
			after = to;
		}
		return found;
	}

	/* Greek and what is Latin in Europe have a part of their own. */
	const fold_part = (code) => code < 0x400 ? "fold0" : "fold1";

	/** What a character is read as: "" passed over, null between words. */
	function fold(character) {
		const code = character.codePointAt(0);
		if (code < 0x80)
			return /[a-z0-9]/i.test(character) ?
				character.toLowerCase() : null;
		const list = runs[fold_part(code)];
		let low = 0, high = list.length;
		while (low < high) {
			const middle = (low + high) >> 1;
			if (list[middle][1] <= code)
				low = middle + 1;
			else
				high = middle;
		}
		const run = list[low];
		if (!run || code < run[0])
			return character;
		switch (run[2]) {
		case 1: return null;
		case 2: return "";
		case 3: return String.fromCodePoint(run[3]);
		case 4: return String.fromCodePoint(code + run[3]);
		case 5: return String.fromCodePoint(code - run[3]);
		default: return run[3];
		}
	}

	/* "24backb" is "24", "back", "b"; "backs" and "background" are words. */
	function split(word) {
		const match = /^([0-9]*)back(.*)$/.exec(word);
		if (!match)
			return [word];
		const letters = match[2] === "s" ? "" : match[2];
		if (bytes(letters).length > 3 || (!match[1] && !letters))
			return [word];
		return [match[1], "back", letters].filter((part) => part);
	}

	/** The words of a text in plain form, each once. */
	async function tokens(text) {
		const words = new Set();
		let word = "";
		for (const character of text) {
			const code = character.codePointAt(0);
			const part = fold_part(code);
			if (code < 0x80 || runs[part])
				continue;
			await need([part]);
			runs[part] = unpack(parts[part]);
		}
		const end = () => {
			if (word)
				split(word).forEach((part) => words.add(part));
			word = "";
		};
		for (const character of text) {
			const read = fold(character);
			if (read === null)
				end();
			else
				word += read;
		}
		end();
		return [...words];
	}

	const letters = (word) => [...word].length;
	/* One letter begins too many words to be of use. */
	const may_begin = (word) => letters(word) > 1;

	/** The shards with a word, or with all words that begin so. */
	function shards(family, word, begun) {
		const firsts = head[family], wanted = bytes(word), names = [];
		let low = 0, high = firsts.length;
		while (low < high) {
			const middle = (low + high) >> 1;
			if (firsts[middle] <= wanted)
				low = middle + 1;
			else
				high = middle;
		}
		if (low > 0)
			names.push(family + (low - 1));
		for (; begun && low < firsts.length &&
			firsts[low].startsWith(wanted); low++)
			names.push(family + low);
		return names;
	}

	/** The postings of a word, or of all that begin so, as texts. */
	function lines(family, word, begun) {
		const found = [];
		for (const name of shards(family, word, begun)) {
			const body = "|" + (parts[name] || "");
			const wanted = "|" + word + (begun ? "" : " ");
			let at = body.indexOf(wanted);
			for (; at >= 0; at = body.indexOf(wanted, at + 1)) {
				const to = body.indexOf("|", at + 1);
				found.push(body.slice(body.indexOf(" ", at) + 1,
					to < 0 ? body.length : to));
			}
		}
		return found;
	}

	function reach(map, document, words) {
		let entry = map.get(document);
		if (!entry) {
			entry = {words, hits: [0, 0, 0], pieces: [], pointed: 0,
				labels: 0, called: false, id_words: 0};
			map.set(document, entry);
		}
		return entry;
	}

	function read_names(map, line) {
		const read = numbers(line, 0);
		let document = 0;
		while (read.more()) {
			document += read.next();
			const entry = reach(map, document, read.next());
			entry.pointed = read.next();
			entry.hits[0] += read.next();
			const label = read.next();
			entry.hits[1] += label;
			if (label)
				entry.labels = read.next();
			for (let count = read.next(); count > 0; count--)
				entry.pieces.push([read.next(), read.next()]);
		}
	}

	function read_words(map, line) {
		const read = numbers(line, 0);
		let document = 0;
		while (read.more()) {
			document += read.next();
			const entry = reach(map, document, read.next());
			const packed = read.next();
			entry.hits[2] += packed >> 2;
			entry.called = entry.called || (packed & 1) > 0;
			if (packed & 2)
				entry.id_words = read.next();
		}
	}

	/** All that is known of a word: a map of documents. */
	function gather(word, families, begun) {
		const map = new Map();
		lines("n", word, begun).forEach((line) => read_names(map, line));
		if (families === "nw")
			lines("w", word, begun).forEach((line) =>
				read_words(map, line));
		return map;
	}

	/* Hits in a column, or in all, with their weights. */
	function weigh(entry, column) {
		let sum = 0;
		for (let i = 0; i < 3; i++)
			if (column < 0 || column === i)
				sum += entry.hits[i] * head.weights[i];
		return sum;
	}

	/* The shortest name that has all words; which label has them all. */
	function spare_in(entries, column, exact) {
		const pieces = new Map();
		for (const entry of entries)
			for (const [place, words] of new Map(entry.pieces))
				if ((place & 1) === column) {
					const seen = pieces.get(place) || [0, words];
					seen[0]++;
					pieces.set(place, seen);
				}
		let least = column ? entries[0].labels : NOT_ALL, fits = false;
		for (const [place, [count, words]] of pieces) {
			if (count < entries.length)
				continue;
			const value = column ? place >> 1 : words;
			if (value < least) {
				least = value;
				fits = words === exact;
			}
		}
		return [least, column > 0 && fits];
	}

	/* Whether id and what it is called show all words; or the id alone. */
	function shown_in(entries) {
		const called = entries.every((entry) => entry && entry.called);
		const exact = entries.every((entry) => entry &&
			entry.id_words === entries.length);
		return [called ? 0 : 1, exact];
	}

	/** One pass: adds to `hits` what is not among them. */
	function pass(words, matched, column, found, whole, hits, seen) {
		const lists = found.map((map) => {
			const list = new Map();
			for (const [document, entry] of map) {
				const sum = weigh(entry, column);
				if (sum > 0)
					list.set(document, [sum, entry]);
			}
			return list;
		});
		const average = head.words / head.count;
		const idf = lists.map((list) => {
			const value = Math.log((head.count - list.size + 0.5) /
				(list.size + 0.5));
			return value > 0 ? value : 1e-6;
		});
		const fresh = [];
		for (const document of lists[0].keys()) {
			if (seen.has(document) ||
				!lists.every((list) => list.has(document)))
				continue;
			const entries = lists.map((list) => list.get(document));
			let score = 0;
			entries.forEach(([sum, entry], i) => {
				score += idf[i] * ((sum * (K1 + 1)) / (sum +
					K1 * (1 - B + B * entry.words / average)));
			});
			const own = entries.map((entry) => entry[1]);
			const [spare, exact] = matched === NAME ||
				matched === BEGUN ? spare_in(own, 0, 0) :
				matched === LABEL ?
				spare_in(own, 1, words.length) :
				shown_in(whole.map((map) => map.get(document)));
			const rank = exact ? NAME : matched;
			fresh.push({document, matched, rank, spare,
				score: Math.round(score * 1e9),
				pointed: matched <= BEGUN && (rank === NAME ||
					rank === BEGUN) ? own[0].pointed : 0});
			seen.add(document);
		}
		fresh.sort((a, b) => b.score - a.score ||
			a.document - b.document);
		hits.push(...fresh);
	}

	/* A stable sort keeps the order of passes and scores. */
	const in_order = (hits) => hits.sort((a, b) => a.rank - b.rank ||
		a.spare - b.spare || b.pointed - a.pointed);

	const all_shards = (family, words, begun) => words.flatMap((word) =>
		shards(family, word, begun && may_begin(word)));

	/* What begins so, if names may have it all: the longest word first. */
	async function gather_begun(words) {
		const order = [...words].sort((a, b) => b.length - a.length);
		for (const word of order) {
			await need(all_shards("n", [word], true));
			if (![...gather(word, "n", may_begin(word)).values()]
				.some((entry) => entry.hits[0] > 0))
				return null;
		}
		return words.map((word) => gather(word, "n", may_begin(word)));
	}

	/** Runs the passes for words: hits, best first; see search. */
	async function run(words, early) {
		let hits = [], seen = new Set(), begun = null;
		const names = (whole) => {
			hits = [];
			seen = new Set();
			pass(words, NAME, 0, whole, whole, hits, seen);
			pass(words, LABEL, 1, whole, whole, hits, seen);
			if (begun)
				pass(words, BEGUN, 0, begun, whole, hits, seen);
			return hits.length > 0;
		};
		const tell = () => early && early({words, instead: false,
			hits: in_order([...hits])});
		await need(all_shards("n", words, false));
		if (names(words.map((word) => gather(word, "n", false))))
			await tell();
		const before = hits.length;
		begun = await gather_begun(words);
		if (names(words.map((word) => gather(word, "n", false))) &&
			before === 0)
			await tell();
		await need(all_shards("w", words, false));
		const whole = words.map((word) => gather(word, "nw", false));
		names(whole);
		pass(words, WORDS, -1, whole, whole, hits, seen);
		if (hits.length === 0) {
			await need([...all_shards("n", words, true),
				...all_shards("w", words, true)]);
			pass(words, WORDS_BEGUN, -1, words.map((word) =>
				gather(word, "nw", may_begin(word))), whole, hits,
			seen);
		}
		return in_order(hits);
	}

	/** Edits between texts of bytes, as compiler/shape/nearest.c counts. */
	function distance(a, b, limit) {
		if (Math.abs(a.length - b.length) > limit)
			return limit + 1;
		let before = [], above = [];
		for (let j = 0; j <= b.length; j++)
			above.push(j);
		for (let i = 1; i <= a.length; i++) {
			const row = [i];
			for (let j = 1; j <= b.length; j++) {
				row[j] = Math.min(above[j - 1] +
					(a[i - 1] !== b[j - 1]),
				above[j] + 1, row[j - 1] + 1);
				if (i > 1 && j > 1 && a[i - 1] === b[j - 2] &&
					a[i - 2] === b[j - 1])
					row[j] = Math.min(row[j],
						before[j - 2] + 1);
			}
			before = above;
			above = row;
		}
		return above[b.length];
	}

	/** The word that was meant by one that nothing has (search/typo.h). */
	async function meant(word) {
		const count = letters(word), limit = count < 6 ? 1 : 2;
		const typed = bytes(word);
		if (count < 3 || /^[0-9]/.test(word))
			return word;
		const names = head.v.filter((length) =>
			Math.abs(length - typed.length) <= limit)
			.map((length) => "v" + length);
		await need(names);
		let best = word, least = limit, most = -1;
		for (const line of names.flatMap((name) =>
			parts[name].split("|"))) {
			const [term, text] = line.split(" ");
			const edits = distance(typed, bytes(term), least);
			const records = numbers(text, 0).next();
			if (edits < least || (edits === least &&
				(records > most || (records === most &&
				bytes(term) < bytes(best))))) {
				best = term;
				least = edits;
				most = records;
			}
		}
		return best;
	}

	/* Whether any record has the word, or one that begins so. */
	function is_known(word) {
		const map = gather(word, "nw", may_begin(word));
		return [...map.values()].some((entry) => weigh(entry, -1) > 0);
	}

	/**
	 * Searches. Gives the words searched for, whether these are others than
	 * were asked for, and the hits, best first. `early` is given the same
	 * with those found by name, before the rest of the index is loaded.
	 */
	async function search(text, early) {
		await need(["head"]);
		const words = await tokens(text);
		if (words.length === 0)
			return {words, instead: false, hits: []};
		const hits = await run(words, early);
		if (hits.length > 0)
			return {words, instead: false, hits};
		const others = new Set();
		for (const word of words)
			others.add(is_known(word) ? word : await meant(word));
		if ([...others].join(" ") === words.join(" "))
			return {words, instead: false, hits};
		const again = await run([...others]);
		return again.length > 0 ?
			{words: [...others], instead: true, hits: again} :
			{words, instead: false, hits};
	}

	/** The kind of a document. */
	function kind_of(document) {
		let kind = head.kinds[0];
		for (const one of head.kinds)
			if (one[3] <= document)
				kind = one;
		return {name: kind[0], titles: kind[1], page: kind[2] > 0};
	}

	/** What a hit is called, once its shard is loaded. */
	async function describe(hit) {
		const shard = "d" + Math.floor(hit.document / head.shard);
		await need([shard]);
		const [id, called, names, home] =
			parts[shard][hit.document % head.shard];
		const kind = kind_of(hit.document);
		return {kind, id, called, names, path: home === 0 ? null :
			(home || kind.name + "/" + id) + ".html"};
	}

	/** The name or label that has the words, where `called` lacks them. */
	async function why(words, told) {
		const count = async (text) => {
			const own = await tokens(text);
			return words.filter((word) => own.some((one) =>
				one.startsWith(word))).length;
		};
		let most = await count(told.called), best = "";
		if (most === words.length)
			return "";
		for (const piece of told.names.split("; ")) {
			const here = await count(piece);
			if (here > most) {
				most = here;
				best = piece;
			}
		}
		return best;
	}

	const api = {put, search, describe, why, kind_of,
		load: () => Promise.reject(new Error("no loader"))};
	return api;
})();

/* The box: in the banner of every page, and larger on a page of its own. */
if (typeof document !== "undefined") (function () {
	const script = document.currentScript.src;
	const top = script.slice(0, script.lastIndexOf("look/"));
	const boxes = [];

	hangtab.load = (name) => new Promise((done, fail) => {
		const one = document.createElement("script");
		one.src = top + "look/find/" + name + ".js";
		one.onload = done;
		one.onerror = () => fail(new Error(name));
		document.head.append(one);
	});

	/** An element with attributes and children. */
	function make(tag, attributes, ...children) {
		const element = document.createElement(tag);
		for (const [name, value] of Object.entries(attributes))
			element.setAttribute(name, value);
		element.append(...children);
		return element;
	}

	function box(place, number) {
		const whole = place.classList.contains("whole");
		const most = whole ? 30 : 5, list_id = "_seek-list-" + number;
		const input = make("input", {type: "search", role: "combobox",
			id: "_seek-" + number, "aria-expanded": "false",
			"aria-controls": list_id, "aria-autocomplete": "list",
			autocomplete: "off", spellcheck: "false",
			placeholder: "Search", "aria-label": "Search this guide"});
		const list = make("div", {id: list_id, role: "listbox",
			"aria-label": "What was found"});
		const said = make("p", {role: "status"});
		const sheet = make("div", {class: "found"}, said, list);
		let asked = 0, options = [], active = -1;

		sheet.hidden = true;
		place.replaceChildren(input, sheet);

		function activate(index) {
			if (options[active])
				options[active].removeAttribute("aria-selected");
			active = index;
			input.removeAttribute("aria-activedescendant");
			if (!options[active])
				return;
			options[active].setAttribute("aria-selected", "true");
			options[active].scrollIntoView({block: "nearest"});
			input.setAttribute("aria-activedescendant",
				options[active].id);
		}

		function close() {
			sheet.hidden = true;
			input.setAttribute("aria-expanded", "false");
			activate(-1);
		}

		async function option(words, hit, id) {
			const told = await hangtab.describe(hit);
			const reason = await hangtab.why(words, told);
			const link = make(told.path ? "a" : "span", {id,
				role: "option", tabindex: "-1"},
			make("bdi", {}, told.called));
			if (told.path)
				link.href = top + told.path;
			if (reason)
				link.append(make("small", {},
					make("bdi", {}, reason)));
			return link;
		}

		/* By kind; those without pages of their own last. */
		function groups(hits) {
			const kinds = new Map();
			for (const hit of hits) {
				const kind = hangtab.kind_of(hit.document);
				if (!kinds.has(kind.name))
					kinds.set(kind.name, {kind, hits: []});
				kinds.get(kind.name).hits.push(hit);
			}
			return [...kinds.values()].sort((a, b) =>
				b.kind.page - a.kind.page);
		}

		async function show(found, turn) {
			const made = [];
			let count = 0;
			for (const {kind, hits} of groups(found.hits)) {
				const name = list_id + "-" + kind.name;
				const group = make("div", {role: "group",
					"aria-labelledby": name}, make("b", {id: name},
					kind.titles + " " + hits.length));
				for (const hit of hits.slice(0, most))
					group.append(await option(found.words, hit,
						list_id + "-" + count++));
				if (turn !== asked)
					return;
				made.push(group);
			}
			list.replaceChildren(...made);
			options = [...list.querySelectorAll("[role=option]")];
			said.textContent = count === 0 ? "Nothing found" :
				found.instead ? "Nothing has just these words. " +
				"Searched for \u201c" + found.words.join(" ") +
				"\u201d" : found.hits.length + " found";
			sheet.hidden = false;
			input.setAttribute("aria-expanded", String(count > 0));
			activate(-1);
		}

		async function ask() {
			const turn = ++asked, text = input.value;
			if (text.trim() === "")
				return close();
			try {
				const tell = async (found) => turn === asked &&
					show(found, turn);
				await tell(await hangtab.search(text, tell));
			} catch (error) {
				said.textContent = "The search index of this " +
					"guide is not there";
				sheet.hidden = false;
			}
			return undefined;
		}

		input.addEventListener("input", ask);
		input.addEventListener("keydown", (event) => {
			const step = {ArrowDown: 1, ArrowUp: -1}[event.key];
			if (event.key === "Escape") {
				close();
			} else if (step && options.length > 0) {
				event.preventDefault();
				activate((active + step + options.length +
					(active < 0 && step < 0)) % options.length);
			} else if (event.key === "Enter") {
				const chosen = options[Math.max(active, 0)];
				if (chosen && chosen.href && !sheet.hidden)
					location.href = chosen.href;
			}
		});
		if (!whole)
			document.addEventListener("click", (event) => {
				if (!place.contains(event.target))
					close();
			});
		boxes.push(input);
	}

	document.querySelectorAll(".seek").forEach(box);
	document.addEventListener("keydown", (event) => {
		if (event.key !== "/" || event.ctrlKey || event.metaKey ||
			/^(INPUT|TEXTAREA|SELECT)$/.test(event.target.tagName))
			return;
		event.preventDefault();
		boxes[boxes.length - 1].focus();
	});
})();
