"use strict";
/*
 * What have I got? The page over narrow-core.js. What was seen stands in the
 * address behind "#", so that it can be kept, sent and gone back to. Text of
 * the guide is only ever put in as text.
 */
(function () {
	const core = hangtabCore;
	const guide = core.open(hangtabNarrow);
	const features = guide.data.features;
	const root = document.getElementById("_narrow");
	const FEW = 24;
	const SIDES = {
		front: "Front of the card", back: "Back of the card",
		blister: "Blister", figure: "Figure", accessory: "Accessory",
		case: "Case", bag: "Bag", box: "Box",
	};

	/** What the person said; the page is made of it. */
	const state = {
		form: "card",
		mistakes: 0,
		/** @type {Seen[]} */
		seen: [],
		/** @type {Set<number>} features that cannot be seen */
		passed: new Set(),
		/** @type {Set<string>} sides that stand open */
		open: new Set(),
		all: false,
	};

	/**
	 * An element; attributes whose name begins with "on" are listeners.
	 * @param {string} tag
	 * @param {Object<string, any>} attributes
	 * @param {...(Node | string | null)} children
	 */
	function make(tag, attributes, ...children) {
		const element = document.createElement(tag);

		for (const [name, value] of Object.entries(attributes)) {
			if (name.startsWith("on"))
				element.addEventListener(name.slice(2), value);
			else if (value === true)
				element.setAttribute(name, "");
			else if (value !== false && value !== null)
				element.setAttribute(name, String(value));
		}
		element.append(...children.filter((child) => child !== null));
		return element;
	}

	/** Corpus text, which may run from right to left. */
	function words(text) {
		return make("bdi", {}, text);
	}

	function plural(count, one, many) {
		return count + " " + (count === 1 ? one : many);
	}

	function currentForm() {
		return guide.data.forms.find((form) => form[0] === state.form);
	}

	/* The address: form, mistakes, then FEATURE=STATE,STATE. */

	function stateNames(one) {
		const names = one.states.map((i) =>
			features[one.feature].states[i][1]);

		return one.none ? [...names, "there is no such thing"] : names;
	}

	function write() {
		const parts = ["form=" + state.form];

		if (state.mistakes > 0)
			parts.push("mistakes=" + state.mistakes);
		for (const one of state.seen) {
			const feature = features[one.feature];
			const keys = one.states.map((i) => feature.states[i][0]);

			if (one.none)
				keys.push("does-not-apply");
			parts.push(feature.id + "=" + keys.join(","));
		}
		history.replaceState(null, "", "#" + parts.join("&"));
	}

	function readPart(part) {
		const [name, value = ""] = part.split("=");
		const place = features.findIndex((one) => one.id === name);
		const keys = value.split(",");

		if (name === "form" && guide.data.forms.some((form) =>
			form[0] === value))
			state.form = value;
		if (name === "mistakes" && /^[012]$/.test(value))
			state.mistakes = Number(value);
		if (place < 0)
			return;
		state.seen.push({
			feature: place,
			states: features[place].states.map((one, i) =>
				keys.includes(one[0]) ? i : -1)
				.filter((i) => i >= 0),
			none: keys.includes("does-not-apply"),
		});
	}

	function read() {
		let hash = location.hash.slice(1);

		try {
			hash = decodeURIComponent(hash);
		} catch (error) {
			hash = "";
		}
		state.seen = [];
		hash.split("&").forEach(readPart);
		state.seen = state.seen.filter((one) =>
			one.none || one.states.length > 0);
	}

	/* What a person does. */

	function observe(feature, states, none) {
		const place = state.seen.findIndex((one) =>
			one.feature === feature);

		if (place >= 0)
			state.seen.splice(place, 1);
		if (states.length > 0 || none)
			state.seen.push({feature, states, none});
		state.all = false;
		change();
	}

	function toggle(feature, place) {
		const old = state.seen.find((one) => one.feature === feature) ||
			{states: [], none: false};
		const none = place < 0 ? !old.none : old.none;
		const states = place < 0 ? old.states :
			old.states.includes(place) ?
				old.states.filter((i) => i !== place) :
				[...old.states, place].sort((a, b) => a - b);

		observe(feature, states, none);
	}

	/* The parts of the page. */

	function drawForms() {
		const choices = guide.data.forms.map(([name, title]) =>
			make("label", {}, make("input", {
				type: "radio", name: "form", value: name,
				id: "_form-" + name,
				checked: name === state.form,
				onchange: () => {
					state.form = name;
					state.passed.clear();
					change();
				},
			}), " " + title));

		return make("fieldset", {class: "narrow-forms"},
			make("legend", {}, "How does it lie before you?"),
			...choices);
	}

	function drawState(look, place) {
		const none = place < 0;
		const [, name, says, drawing] = none ?
			["", "there is no such thing", "", ""] :
			features[look.feature].states[place];

		return make("li", {}, make("button", {
			type: "button",
			onclick: () => {
				observe(look.feature, none ? [] : [place], none);
				focusOn("_next");
			},
		}, make("b", {}, words(name)),
		says === "" && drawing === "" ? null :
			make("small", {}, words(says || drawing))));
	}

	/** @param {Look[]} looks @param {boolean} any whether anything remains */
	function drawNext(looks, any) {
		const look = looks.find((one) => !state.passed.has(one.feature));
		const section = make("section", {class: "narrow-next"},
			make("h2", {id: "_next", tabindex: "-1"},
				"Look at this next"));

		if (look === undefined) {
			section.append(make("p", {}, !any ?
				"First see what does not agree." :
				looks.length > 0 ? "You have passed over all that would help. " :
				"Nothing more is recorded that tells what " +
				"remains apart."));
			if (looks.length > 0)
				section.append(make("button", {type: "button",
					onclick: () => {
						state.passed.clear();
						change();
						focusOn("_next");
					}}, "Show them again"));
			return section;
		}
		const feature = features[look.feature];
		const shown = core.list(look.states).filter((i) =>
			i < feature.states.length);

		section.append(make("h3", {}, words(feature.name)),
			make("p", {}, words(feature.where)),
			make("ul", {class: "narrow-states"},
				...shown.map((i) => drawState(look, i)),
				core.has(look.states, 63) &&
					feature.states.length < 64 ?
					drawState(look, -1) : null),
			make("p", {}, make("button", {
				type: "button",
				class: "narrow-pass",
				onclick: () => {
					state.passed.add(look.feature);
					change();
					focusOn("_next");
				},
			}, "I cannot see that")));
		if (feature.ask !== "")
			section.append(make("p", {class: "note"},
				"To ask a seller: ", words(feature.ask)));
		return section;
	}

	function drawSeen(held) {
		const section = make("section", {},
			make("h2", {id: "_seen", tabindex: "-1"},
				"What you saw"));

		if (state.seen.length === 0) {
			section.append(make("p", {}, "Nothing yet."));
			return section;
		}
		section.append(make("ol", {class: "narrow-seen"},
			...state.seen.map((one, i) => {
				const out = held.filter((other) =>
					other.wrong.includes(i)).length;
				const name = features[one.feature].name;

				return make("li", {}, make("span", {},
					words(name), ": ", make("b", {},
						words(stateNames(one)
							.join(" or "))),
					make("small", {}, " rules out " +
						plural(out, "way", "ways"))),
				make("button", {
					type: "button",
					"aria-label": "Take back: " + name,
					onclick: () => {
						observe(one.feature, [], false);
						focusOn("_seen");
					},
				}, "Take back"));
			})),
		make("p", {}, make("label", {}, "Of these, ", make("select", {
			id: "_mistakes",
			onchange: (event) => {
				state.mistakes = Number(event.target.value);
				change();
				focusOn("_mistakes");
			},
		}, ...["none", "one", "two"].map((name, i) => make("option", {
			value: i, selected: i === state.mistakes}, name))),
		" may be wrong")));
		return section;
	}

	/** Which observation, taken back, would leave something. */
	function drawNothing(held) {
		const hints = state.seen.map((one, i) => [one, held.filter(
			(other) => other.wrong.includes(i) &&
			other.against === state.mistakes + 1).length])
			.filter(([, count]) => count > 0);

		return make("ul", {}, ...hints.map(([one, count]) =>
			make("li", {}, "Look again at ",
				words(features[one.feature].name), ": without it " +
				plural(count, "way remains", "ways remain"))),
		hints.length > 0 ? null : make("li", {}, "No single one of " +
			"them is to blame; allow for mistakes."));
	}

	function recordLink(kind, place) {
		const [id, name] = guide.data[kind][place];

		return make("a", {href: kind + "/" + id + ".html"}, words(name));
	}

	function drawRecord(kind, one) {
		return make("li", {}, recordLink(kind, one.record),
			one.wrong > 0 ? make("small", {}, " against " + one.wrong +
				" of what you saw") : one.shown < state.seen.length ?
				make("small", {}, " not all of that is recorded") :
				null);
	}

	/** A combination, by the parts that differ. */
	function drawWay(one) {
		const way = one.way;
		const details = ["front", "blister", "variant"].map((kind, i) =>
			way.parts[i + 2] < 0 ? null :
				guide.data[kind][way.parts[i + 2]][1])
			.filter((name) => name !== null);
		const address = way.address.split(".")[0] + ".html" +
			(way.key === "" ? "" : "#" + encodeURIComponent(way.key));

		return make("li", {}, make("a", {href: address},
			words(way.parts[0] < 0 ? way.address :
				guide.data.character[way.parts[0]][1])),
		make("small", {}, " ", words(details.join("; "))));
	}

	/** `enough` of the items say all; the others are shown if asked for. */
	function drawList(items, enough, draw) {
		const shown = state.all ? items : items.slice(0,
			enough > 0 && enough <= FEW ? enough : FEW);
		const more = items.length - shown.length;

		return [make("ul", {class: "narrow-left"}, ...shown.map(draw)),
			more > 0 ? make("button", {
				type: "button",
				onclick: () => {
					state.all = true;
					change();
					focusOn("_left");
				},
			}, "Show " + more + (shown.length === enough ?
				" of which not all of that is recorded" :
				" more")) : null];
	}

	function drawLeft(held, of) {
		const kind = of || "cardback";
		const ways = held.filter((one) => one.against <= state.mistakes);
		const records = core.remaining(held, state.mistakes, kind);
		const full = state.seen.length === 0 ? 0 : records.filter((one) =>
			one.shown === state.seen.length).length;
		const noun = kind === "variant" ? ["figure", "figures"] :
			["card back", "card backs"];
		const section = make("section", {class: "narrow-remains"},
			make("h2", {id: "_left", tabindex: "-1"}, "What remains"));

		status.textContent = ways.length === 0 ?
			"Nothing recorded fits all of what you saw." :
			plural(records.length, noun[0], noun[1]) +
			(of === "" ? ", in " + plural(ways.length,
				"way", "ways") : "") + ".";
		section.append(status);
		if (ways.length === 0)
			section.append(drawNothing(held));
		else if (of === "" && records.length === 1)
			section.append(make("p", {}, recordLink(kind,
				records[0].record), ", with:"),
			...drawList(ways, 0, drawWay).filter(Boolean));
		else
			section.append(...drawList(records, full, (one) =>
				drawRecord(kind, one)).filter(Boolean));
		return section;
	}

	function drawFeature(place) {
		const feature = features[place];
		const old = state.seen.find((one) => one.feature === place) ||
			{states: [], none: false};

		function box(i, name, checked) {
			const id = "_see-" + feature.id + "." + i;

			return make("label", {}, make("input", {
				type: "checkbox", id, checked,
				onchange: () => {
					toggle(place, i);
					focusOn(id);
				},
			}), " ", words(name));
		}
		return make("fieldset", {},
			make("legend", {}, words(feature.name)),
			...feature.states.map((one, i) => box(i, one[1],
				old.states.includes(i))),
			box(-1, "there is no such thing", old.none));
	}

	/** All that would tell what remains apart, by where one looks. */
	function drawOthers(looks) {
		const places = [...state.seen.map((one) => one.feature),
			...looks.map((look) => look.feature)];
		const sides = [...new Set(places.map((place) =>
			features[place].side))];

		return make("section", {class: "narrow-others"},
			make("h2", {}, "Anything else you can see"),
			make("p", {}, "Tick as many as it may be."),
			...sides.map((side) => {
				const details = make("details", {
					open: state.open.has(side)}, make("summary",
					{}, SIDES[side] || side));

				function fill() {
					details.append(...places.filter((place) =>
						features[place].side === side)
						.map(drawFeature));
				}
				if (details.open)
					fill();
				details.addEventListener("toggle", () => {
					if (details.open && !state.open.has(side))
						fill();
					if (details.open)
						state.open.add(side);
				});
				return details;
			}));
	}

	/* Making it. */

	const status = make("p", {role: "status", class: "narrow-count"});

	function focusOn(id) {
		const element = document.getElementById(id);

		if (element !== null)
			element.focus({preventScroll: id.startsWith("_see-")});
	}

	function draw() {
		const form = currentForm();
		const of = form[2];
		const held = core.hold(guide, state.seen, of);
		const looks = core.looks(guide, held, state.mistakes, state.seen,
			of || core.target(held, state.mistakes), form.slice(3));

		root.replaceChildren(drawForms(),
			make("div", {class: "narrow-two"},
				make("div", {},
					drawNext(looks, held.some(
					(one) => one.against <= state.mistakes)),
					drawSeen(held)),
				drawLeft(held, of)),
			drawOthers(looks));
	}

	function change() {
		write();
		draw();
	}

	addEventListener("hashchange", () => {
		read();
		draw();
	});
	read();
	draw();
}());
