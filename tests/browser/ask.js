/*
 * Asks the search of a site without a browser: node ask.js SITE <QUESTIONS,
 * a JSON list of texts. Prints for each what was searched for, the records
 * in order, and how many bytes of scripts were loaded up to the first result,
 * as a page does that was just opened.
 */
"use strict";
const fs = require("fs");
const path = require("path");
const vm = require("vm");

const site = process.argv[2];

function open() {
	const context = vm.createContext({Promise, console});
	const opened = {bytes: 0, shards: 0};
	const load = (name) => {
		const text = fs.readFileSync(path.join(site, "look", name));
		opened.bytes += text.length;
		opened.shards++;
		vm.runInContext(text.toString(), context, {filename: name});
	};
	load("search.js");
	opened.hangtab = context.hangtab;
	opened.hangtab.load = async (name) => load(`find/${name}.js`);
	return opened;
}

async function main() {
	const questions = JSON.parse(fs.readFileSync(0, "utf8"));
	const answers = [];
	const names = open();
	for (const text of questions) {
		const opened = open();
		let bytes = 0;
		const show = async (found) => {
			if (bytes > 0 || found.hits.length === 0)
				return;
			await opened.hangtab.describe(found.hits[0]);
			bytes = opened.bytes;
		};
		const found = await opened.hangtab.search(text, show);
		await show(found);
		await names.hangtab.search(text);
		const ids = [];
		for (const hit of found.hits) {
			const told = await names.hangtab.describe(hit);
			ids.push([told.kind.name, told.id, told.path]);
		}
		answers.push({words: found.words, instead: found.instead, ids,
			bytes});
	}
	process.stdout.write(JSON.stringify(answers));
}

main();
