"use strict";
/*
 * Narrowing, as compiler/study/narrow.c, narrow_looks.c, key.c and rest.c do
 * it: the same ways a piece can be, held against what was seen, and the same
 * order of what to look at next. Sets of states are two numbers of 32 bits.
 * Nothing here knows of a page.
 */

/**
 * @typedef {{lo: number, hi: number}} States
 * @typedef {{feature: number, states: number[], none: boolean}} Seen
 *     Any of these states, or that the feature does not apply.
 * @typedef {{address: string, key: string, alone: string, common: number,
 *     parts: number[], row: Map<number, States>}} Way
 *     A row is what is known: that of all its parts together.
 * @typedef {{way: Way, against: number, shows: number, wrong: number[]}} Held
 * @typedef {{feature: number, states: States, left: number, cost: number,
 *     saved: number}} Look
 */

var hangtabCore = (function () {
	const KINDS = ["character", "cardback", "front", "blister", "variant"];
	const REST_MOST = 10;
	const VARIABILITY = 0.8;

	/** @param {number} n @returns {number} how many bits are set */
	function bits(n) {
		let count = 0;

		for (; n !== 0; n &= n - 1)
			count++;
		return count;
	}

	/** @param {States} states @param {number} i */
	function has(states, i) {
		return ((i < 32 ? states.lo >>> i : states.hi >>> (i - 32)) & 1)
			!== 0;
	}

	/** @param {number[]} list feature, lo, hi, and so on */
	function readRow(list) {
		const row = new Map();

		for (let i = 0; i < list.length; i += 3)
			row.set(list[i], {lo: list[i + 1] | 0,
				hi: list[i + 2] | 0});
		return row;
	}

	/** What several rows say together. */
	function meet(rows) {
		const met = new Map();

		for (const row of rows)
			for (const [feature, states] of row) {
				const old = met.get(feature);

				met.set(feature, old === undefined ? states : {
					lo: old.lo & states.lo,
					hi: old.hi & states.hi,
				});
			}
		return met;
	}

	/** The data of the guide made ready: all ways, with their rows. */
	function open(data) {
		const rows = KINDS.map((kind) => data[kind].map((record) =>
			readRow(record[2])));
		const standIns = data.standIns.map(readRow);
		/** @type {Way[]} */
		const ways = [];

		/** @returns {Way} */
		function readWay(way, address, alone) {
			const parts = way.slice(2, 7);
			const own = parts.map((place, i) => place < 0 ?
				null : rows[i][place]);

			own.push(way[7] < 0 ? null : standIns[way[7]]);
			own.push(way[8] < 0 ? null : standIns[way[8]]);
			return {address, key: way[0], alone, common: way[1],
				parts, row: meet(own.filter((row) => row !== null))};
		}
		for (const pairing of data.pairings)
			for (const way of pairing.slice(1))
				ways.push(readWay(way, "pairing/" + pairing[0] +
					(way[0] === "" ? "" : "." + way[0]), ""));
		for (const [kind, way] of data.alone)
			ways.push(readWay(way, kind + "/" +
				data[kind][way[2 + KINDS.indexOf(kind)]][0],
				kind));
		return {data, ways};
	}

	/** @param {Seen} seen @param {States} states */
	function fits(seen, states) {
		return states.lo === 0 && states.hi === 0 ? seen.none :
			seen.states.some((i) => has(states, i));
	}

	/**
	 * All ways, each held against what was seen. `of` is the kind to
	 * settle, or "" for cards.
	 * @param {Seen[]} seen @returns {Held[]}
	 */
	function hold(guide, seen, of) {
		const held = [];

		for (const way of guide.ways) {
			if (way.alone !== "" && way.alone !== (of || "cardback"))
				continue;
			const one = {way, against: 0, shows: 0, wrong: []};

			for (let i = 0; i < seen.length; i++) {
				const states = way.row.get(seen[i].feature);

				if (states === undefined)
					continue;
				if (fits(seen[i], states)) {
					one.shows++;
				} else {
					one.against++;
					one.wrong.push(i);
				}
			}
			held.push(one);
		}
		return held;
	}

	/** The card back while several remain, then the whole. */
	function target(held, mistakes) {
		let back = -1;

		for (const one of held) {
			const place = one.way.parts[1];

			if (place < 0 || one.against > mistakes)
				continue;
			if (back >= 0 && place !== back)
				return "cardback";
			back = place;
		}
		return "";
	}

	/** What is to be told apart: the ways that remain, by thing. */
	function gatherThings(held, mistakes, of) {
		const known = new Map();
		const things = {ways: [], places: [], common: []};

		held.forEach((one, i) => {
			const thing = of === "" ? i :
				one.way.parts[KINDS.indexOf(of)];
			let place;

			if (thing < 0 || one.against > mistakes)
				return;
			place = known.get(thing);
			if (place === undefined) {
				place = things.common.length;
				known.set(thing, place);
				things.common.push(one.way.common);
			} else {
				things.common[place] += one.way.common;
			}
			things.ways.push(one.way);
			things.places.push(place);
		});
		return things;
	}

	/**
	 * What each thing may show, by feature; of one that some way of a thing
	 * does not know, whatever any other shows. That a feature does not apply
	 * is the highest bit.
	 * @returns {Map<number, {sets: States[], all: States}>}
	 */
	function fillSets(things) {
		const count = things.common.length;
		const ways = new Array(count).fill(0);
		const found = new Map();

		things.ways.forEach((way, i) => {
			const place = things.places[i];

			ways[place]++;
			for (const [feature, states] of way.row) {
				const none = states.lo === 0 && states.hi === 0;
				const hi = none ? 1 << 31 : states.hi;
				let one = found.get(feature);

				if (one === undefined) {
					one = {sets: things.common.map(() =>
						({lo: 0, hi: 0})),
						known: new Array(count).fill(0),
						all: {lo: 0, hi: 0}};
					found.set(feature, one);
				}
				one.sets[place].lo |= states.lo;
				one.sets[place].hi |= hi;
				one.known[place]++;
				one.all.lo |= states.lo;
				one.all.hi |= hi;
			}
		});
		for (const one of found.values())
			one.sets = one.sets.map((set, i) =>
				one.known[i] < ways[i] ? one.all : set);
		return found;
	}

	/** The places of the states of a set. */
	function list(states) {
		const places = [];

		for (let i = 0; i < 64; i++)
			if (has(states, i))
				places.push(i);
		return places;
	}

	/**
	 * Dallwitz's measure (study/key.c); null if the feature is of no use.
	 */
	function weigh(sets, common) {
		const count = sets.length;
		const items = new Array(64).fill(0);
		const commons = new Array(64).fill(0);
		const shares = new Array(64).fill(0);
		let places = 0, held = 0, all = 0, rest = 0, left = 0;

		if (count < 2)
			return null;
		sets.forEach((set, i) => {
			const several = bits(set.lo) + bits(set.hi);

			for (const j of list(set)) {
				items[j]++;
				commons[j] += common[i];
				shares[j] += common[i] / several;
			}
		});
		for (let i = 0; i < 64; i++) {
			if (items[i] === 0)
				continue;
			if (items[i] === count)
				return null;
			places += items[i];
			held += commons[i];
			all += shares[i];
			rest += commons[i] * Math.log2(items[i]);
			left += shares[i] * items[i];
		}
		return {
			left: left / all,
			power: Math.log2(count) - rest / held,
			variation: (1 - VARIABILITY) / VARIABILITY *
				(places - count) * (count + 8) /
				(count * Math.log2(count)),
		};
	}

	/**
	 * What is left to pay after each look, at the least (study/rest.c).
	 * @returns {number[]}
	 */
	function restCosts(kept, common, costs) {
		const count = common.length;
		const known = new Array(1 << count).fill(-1);
		const leads = kept.map((sets) => {
			const found = [];

			for (let i = 0; i < 64; i++) {
				let items = 0;

				for (let j = 0; j < count; j++)
					if (has(sets[j], i))
						items |= 1 << j;
				if (items !== 0)
					found.push(items);
			}
			return {found, shares: sets.map((set, j) => common[j] /
				(bits(set.lo) + bits(set.hi)))};
		});

		function after(feature, set) {
			let all = 0, cost = 0;

			for (const items of leads[feature].found) {
				const left = items & set;
				let share = 0;

				if (left === set)
					return -1;
				if (left === 0)
					continue;
				for (let j = 0; j < count; j++)
					if ((left >> j & 1) !== 0)
						share += leads[feature].shares[j];
				all += share;
				cost += share * wayOn(left);
			}
			return cost / all;
		}
		function wayOn(set) {
			let best = 0, any = false;

			if ((set & (set - 1)) === 0)
				return 0;
			if (known[set] >= 0)
				return known[set];
			for (let i = 0; i < leads.length; i++) {
				let cost = after(i, set);

				if (cost < 0)
					continue;
				cost += costs[i];
				if (!any || cost < best)
					best = cost;
				any = true;
			}
			known[set] = best;
			return best;
		}
		return kept.map((_, i) => after(i, (1 << count) - 1));
	}

	/** In thousand-millionths, so that no last bit decides. */
	function netCost(look) {
		return Math.floor((look.cost - look.saved) * 1e9 + 0.5);
	}

	/**
	 * What to look at next, best first. `sides` leaves out features of
	 * others; null leaves out none.
	 * @param {Seen[]} seen @returns {Look[]}
	 */
	function looks(guide, held, mistakes, seen, of, sides) {
		const things = gatherThings(held, mistakes, of);
		const exact = things.common.length <= REST_MOST;
		/** @type {Look[]} */
		const found = [];
		const kept = [];
		const sets = fillSets(things);

		guide.data.features.forEach((feature, i) => {
			if (seen.some((one) => one.feature === i) ||
				(sides !== null && !sides.includes(feature.side)))
				return;
			const filled = sets.get(i);
			const weight = filled === undefined ? null :
				weigh(filled.sets, things.common);

			if (weight === null)
				return;
			found.push({feature: i, states: filled.all,
				left: weight.left, cost: feature.cost,
				saved: weight.power - weight.variation});
			if (exact)
				kept.push(filled.sets);
		});
		if (exact && found.length > 0)
			restCosts(kept, things.common, found.map((look) =>
				look.cost)).forEach((left, i) => {
				found[i].saved =
					Math.log2(things.common.length) - left;
			});
		return found.sort((a, b) => netCost(a) - netCost(b) ||
			a.feature - b.feature);
	}

	/**
	 * The records of a kind among what remains, those that show most of
	 * what was seen first.
	 */
	function remaining(held, mistakes, kind) {
		const place = KINDS.indexOf(kind);
		const best = new Map();

		for (const one of held) {
			const record = one.way.parts[place];
			const old = best.get(record);

			if (record < 0 || one.against > mistakes)
				continue;
			if (old === undefined || one.shows > old.shown ||
				(one.shows === old.shown &&
				one.against < old.wrong))
				best.set(record, {record, shown: one.shows,
					wrong: one.against});
		}
		return [...best.values()].sort((a, b) => b.shown - a.shown ||
			a.record - b.record);
	}

	return {open, hold, target, looks, remaining, list, has};
}());
