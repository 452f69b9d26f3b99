// What site/narrow-core.js says of walks, one JSON object a line. Arguments:
// the guide's look/ folder, and a file of {of, mistakes, sides, words}.
"use strict";
const fs = require("fs");
const path = require("path");
const vm = require("vm");

const [folder, walks] = process.argv.slice(2);
const world = vm.createContext({});
for (const name of ["narrow-data.js", "narrow-core.js"])
	vm.runInContext(fs.readFileSync(path.join(folder, name), "utf8"), world,
		{filename: name});
const core = world.hangtabCore;
const guide = core.open(world.hangtabNarrow);
const features = new Map(guide.data.features.map((feature, i) =>
	[feature.id, i]));

function read(word) {
	const [id, keys] = word.split("=");
	const feature = features.get(id);
	const known = guide.data.features[feature].states.map((state) =>
		state[0]);
	const states = keys.split(",");

	return {feature, none: states.includes("does-not-apply"), states: states
		.filter((key) => known.includes(key))
		.map((key) => known.indexOf(key))};
}

for (const line of fs.readFileSync(walks, "utf8").trim().split("\n")) {
	const {of, mistakes, sides, words} = JSON.parse(line);
	const seen = words.map(read);
	const held = core.hold(guide, seen, of);
	const looks = core.looks(guide, held, mistakes, seen,
		of || core.target(held, mistakes), sides);
	const remain = of === "" ?
		held.filter((one) => one.against <= mistakes).map((one) =>
			[one.way.address, one.against, one.shows]) :
		core.remaining(held, mistakes, of).map((one) => [of + "/" +
			guide.data[of][one.record][0], one.wrong, one.shown]);

	console.log(JSON.stringify({remain,
		out: words.map((_, i) => held.filter((one) =>
			one.wrong.includes(i)).length),
		looks: looks.map((look) => [guide.data.features[look.feature].id,
			look.left, look.cost - look.saved])}));
}
