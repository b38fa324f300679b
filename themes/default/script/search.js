// Which designs answer what was typed: pure functions of the shelf's words.

const fold = (text) => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().replace(/ß/g, "ss");
const wordsOf = (text) => fold(text).match(/[\p{L}\p{N}]+/gu) ?? [];

/** Every word of the catalogue with the designs it stands in, and how much it weighs there. */
function indexed(shelf) {
	const index = new Map();
	const add = (text, at, weight) => {
		for (const word of wordsOf(text ?? "")) {
			if (!index.has(word)) index.set(word, new Map());
			const places = index.get(word);
			places.set(at, Math.max(weight, places.get(at) ?? 0));
		}
	};
	for (const [at, design] of shelf.designs.entries()) {
		add(design.title, at, 4);
		for (const subject of design.subjects) add(shelf.subjects[subject], at, 3);
		add(`${design.forms} ${design.label} ${design.wood}`, at, 2);
		add(design.more, at, 1);
	}
	return index;
}

/** How many letters must be changed, left out, added or swapped, but no more than `most`. Damerau 1964, optimal string alignment. */
function away(a, b, most) {
	if (Math.abs(a.length - b.length) > most) return most + 1;
	let before = [];
	let last = Array.from({ length: b.length + 1 }, (_, i) => i);
	for (let i = 1; i <= a.length; i++) {
		const row = [i];
		let least = i;
		for (let j = 1; j <= b.length; j++) {
			let cost = Math.min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1));
			if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) cost = Math.min(cost, before[j - 2] + 1);
			row.push(cost);
			least = Math.min(least, cost);
		}
		if (least > most) return most + 1;
		before = last;
		last = row;
	}
	return last[b.length];
}

/** How well a word of the catalogue answers a word that was typed, 0 to 1. */
function answer(typed, word) {
	if (word === typed) return 1;
	if (word.startsWith(typed)) return 0.9;
	if (typed.length > 3 && word.includes(typed)) return 0.6;
	const most = typed.length < 4 ? 0 : typed.length < 8 ? 1 : 2;
	if (!most) return 0;
	const apart = Math.min(away(typed, word, most), word.length > typed.length ? away(typed, word.slice(0, typed.length), most) : 9);
	return apart > most ? 0 : 0.5 - 0.1 * apart;
}

/** Designs that answer every word typed, each with its weight; null where nothing was typed. */
function answering(index, text) {
	let kept = null;
	for (const typed of wordsOf(text)) {
		const now = new Map();
		for (const [word, places] of index) {
			const fit = answer(typed, word);
			if (!fit) continue;
			for (const [at, weight] of places) now.set(at, Math.max(now.get(at) ?? 0, fit * weight));
		}
		const before = kept;
		kept = before ? new Map([...now].filter(([at]) => before.has(at)).map(([at, w]) => [at, w + before.get(at)])) : now;
	}
	return kept;
}
