// The search of the lists: its fields, its answers in place of the shelf, its state in the address.

const form = one(".finder");
if (form) finder(form);

function finder(form) {
	const { shelf: data, home, root } = form.dataset;
	const shelf = one(".shelf");
	const pager = one(".pager");
	const status = one("[role=status]", form);
	const clear = one("[type=reset]", form);
	const limits = one("#limits");
	const narrow = one(".narrow", form);
	const found = make("div", { class: "shelf found", hidden: true });
	shelf.after(found);
	let stock = null;
	let loading = null;
	let shown = 0;
	let answers = [];

	/** The data of the search, once. A script element, since a page opened from a disk may fetch nothing. */
	function load() {
		loading ??= new Promise((resolve, reject) => {
			const script = make("script", { src: data });
			script.onload = () => resolve((stock = prepared(self.kerfleafShelf)));
			script.onerror = reject;
			document.head.append(script);
		});
		return loading;
	}

	/** The data as the search uses it. */
	function prepared(shelf) {
		for (const [at, design] of shelf.designs.entries()) {
			design.at = at;
			design.least = Math.min(...design.offers.map(([, price]) => price));
		}
		shelf.index = indexed(shelf);
		shelf.template = make("template");
		shelf.template.innerHTML = shelf.entry;
		shelf.number = new Intl.NumberFormat(shelf.language);
		shelf.order = new Intl.Collator(shelf.language);
		return shelf;
	}

	const sorts = {
		title: (a, b) => stock.order.compare(a.title, b.title),
		few: (a, b) => a.count - b.count,
		many: (a, b) => b.count - a.count,
		gentle: (a, b) => a.score - b.score,
		fiendish: (a, b) => b.score - a.score,
		price: (a, b) => a.least - b.least,
	};

	function fitting(state) {
		const number = (name) => (state.get(name) ? Number(state.get(name)) : null);
		const within = (value, name, scale = 1) => {
			const [from, to] = [number(`${name}-from`), number(`${name}-to`)];
			return (from === null || value >= from * scale - 0.05) && (to === null || value <= to * scale + 0.05);
		};
		const [forms, words, subject, ready] = [state.getAll("form"), state.getAll("word"), state.get("subject"), state.get("ready")];
		const typed = answering(stock.index, state.get("q") ?? "");
		const priced = state.get("price-from") || state.get("price-to");
		const fits = (design) =>
			(!typed || typed.has(design.at)) &&
			(!words.length || words.includes(design.word)) &&
			(!subject || design.subjects.some((at) => stock.subjects[at] === subject)) &&
			within(design.count, "count") &&
			within(design.side, "side", stock.perSide) &&
			(!(forms.length || ready || priced) ||
				design.offers.some(([form, price, left]) => (!forms.length || forms.includes(form)) && (!ready || left > 0) && within(price, "price", stock.perCoin)));
		const sort = sorts[state.get("sort")] ?? (typed ? (a, b) => typed.get(b.at) - typed.get(a.at) : () => 0);
		return stock.designs.filter(fits).sort((a, b) => sort(a, b) || a.at - b.at);
	}

	/** What is asked for: the fields that say something, in the form's order. */
	function asked() {
		const state = new URLSearchParams();
		for (const [name, value] of new FormData(form)) if (String(value).trim()) state.append(name, value);
		return state;
	}

	async function show(keep = true) {
		const state = asked();
		const plain = !state.toString();
		if (keep) remember(state);
		clear.hidden = plain;
		if (plain) {
			shelf.hidden = false;
			if (pager) pager.hidden = false;
			found.hidden = true;
			found.replaceChildren();
			status.textContent = "";
			return;
		}
		await load();
		if (asked().toString() !== state.toString()) return;
		answers = fitting(state);
		shown = 0;
		found.replaceChildren();
		more();
		shelf.hidden = true;
		if (pager) pager.hidden = true;
		found.hidden = false;
		const say = answers.length ? stock.say["finder-found"] : stock.say["finder-none"];
		status.textContent = said(say, { n: stock.number.format(answers.length), total: stock.number.format(stock.designs.length) });
	}

	/** The next rows of answers, in the rhythm of the lists. */
	function more() {
		one(".more", found)?.remove();
		const rows = [];
		let width = Infinity;
		for (const design of answers.slice(shown, shown + 36)) {
			if (width >= [3.6, 2.3][rows.length % 2]) {
				rows.push(make("div", { class: "row" }));
				width = 0;
			}
			width += design.picture ? design.picture.width / design.picture.height : 1;
			rows.at(-1).append(card(design));
		}
		shown += 36;
		found.append(...rows);
		if (shown < answers.length) {
			found.append(make("p", { class: "more" }, make("button", { type: "button", onclick: () => {
				const last = found.querySelectorAll(".row").length;
				more();
				found.querySelectorAll(".row")[last]?.querySelector("a")?.focus({ preventScroll: true });
			} }, stock.say["finder-more"])));
		}
	}

	/** One answer: the theme's own entry with this design's values in it. */
	function card(design) {
		const picture = design.picture;
		const values = { slug: design.slug, href: home + design.href, title: design.title, pieces: design.pieces, size: design.size,
			at: design.score, word: design.word, label: design.label, forms: design.forms, price: design.price, state: design.state, accent: design.accent,
			...(picture && { alt: picture.alt, width: picture.width, height: picture.height, ground: picture.ground, shape: picture.shape,
				src: address(root, picture, 0), webp: sizes(root, picture) }) };
		const fill = (text) => text.replace(/kf-([a-z]+)/g, (_, name) => values[name] ?? "");
		const node = stock.template.content.firstElementChild.cloneNode(true);
		for (const part of [node, ...all("*", node)]) {
			for (const { name, value } of [...part.attributes]) if (value.includes("kf-")) part.setAttribute(name, fill(value));
			for (const child of part.childNodes) if (child.nodeType === 3 && child.data.includes("kf-")) child.data = fill(child.data);
		}
		if (!picture) one(".frame", node)?.remove();
		if (design.sold) node.classList.add("sold");
		scales.pick(node);
		return node;
	}

	/** The state lives in the address, behind the #, where it works on a disk as well. */
	function remember(state = asked()) {
		if (scales.chosen().length) state.set("compare", scales.chosen().join(" "));
		const text = state.toString();
		if (text !== location.hash.slice(1)) history.replaceState(null, "", text ? `#${text}` : location.pathname + location.search);
	}

	function recall() {
		const text = location.hash.slice(1);
		if (text && !text.includes("=")) return;
		const state = new URLSearchParams(text);
		for (const field of form.elements) {
			if (!field.name) continue;
			if (field.type === "checkbox") field.checked = state.getAll(field.name).includes(field.value);
			else field.value = state.get(field.name) ?? "";
		}
		if ([...state.keys()].some((name) => !["q", "sort", "compare"].includes(name))) open(true);
		const compared = (state.get("compare") ?? "").split(" ").filter(Boolean);
		if (compared.length) scales.recall(compared);
		show(false);
	}

	function open(yes) {
		limits.hidden = !yes;
		narrow.setAttribute("aria-expanded", yes);
	}

	const scales = comparing({ weigh: one(".weigh", form), home, root, load, remember: () => remember() });
	form.addEventListener("submit", (event) => event.preventDefault());
	form.addEventListener("input", () => show());
	form.addEventListener("focusin", () => load().catch(() => {}), { once: true });
	form.addEventListener("reset", () => setTimeout(() => { show(); one("[name=q]", form).focus(); }));
	narrow.addEventListener("click", () => open(limits.hidden));
	window.addEventListener("hashchange", recall);
	if (location.hash.includes("=")) recall();
}
