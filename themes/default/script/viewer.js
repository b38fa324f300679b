// The pictures of a product, to look into.

const pictures = one(".pictures");
if (pictures) pictures.addEventListener("click", (event) => {
	const link = event.target.closest("figure a");
	if (!link || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
	event.preventDefault();
	look(all("figure a", pictures).filter((other) => other.offsetParent), link);
});

/** One picture after the other on the whole screen: arrows, swipes, and nearer by a press, never beyond the picture's own pixels. */
function look(links, first) {
	const say = pictures.dataset;
	let at = links.indexOf(first);
	const image = make("img", { draggable: "false", alt: "" });
	const stage = make("div", { class: "stage", tabindex: "0" }, image);
	const caption = make("p", { role: "status" });
	const turn = (step) => show((at + step + links.length) % links.length);
	const arrow = (label, sign, step) => make("button", { type: "button", "aria-label": label, onclick: () => turn(step) }, sign);
	const nearer = make("button", { type: "button", "aria-label": say.nearer, "aria-pressed": "false", onclick: () => near() }, "+");
	const rtl = document.dir === "rtl";
	const bar = make("div", { class: "turn" }, ...(links.length > 1 ? [arrow(say.before, rtl ? "→" : "←", -1)] : []), caption, nearer,
		...(links.length > 1 ? [arrow(say.after, rtl ? "←" : "→", 1)] : []));
	const dialog = modal("viewer", { "aria-label": say.label }, say.close, stage, bar);

	function show(index) {
		at = index;
		const inside = one("img", links[at]);
		near(false);
		image.src = links[at].href;
		image.alt = inside.alt;
		const words = one("figcaption", links[at].closest("figure"))?.textContent ?? inside.alt;
		caption.textContent = links.length > 1 ? `${words} · ${at + 1}/${links.length}` : words;
	}

	/** From the whole to the picture's own pixels and back, round the point that was pressed. */
	function near(yes = !stage.classList.contains("near"), x = 0.5, y = 0.5) {
		stage.classList.toggle("near", yes);
		nearer.setAttribute("aria-pressed", yes);
		nearer.textContent = yes ? "–" : "+";
		if (yes) stage.scrollTo((stage.scrollWidth - stage.clientWidth) * x, (stage.scrollHeight - stage.clientHeight) * y);
	}

	let down = null;
	stage.addEventListener("pointerdown", (event) => {
		down = { x: event.clientX, y: event.clientY, left: stage.scrollLeft, top: stage.scrollTop, touch: event.pointerType === "touch" };
		if (!down.touch) stage.setPointerCapture(event.pointerId);
	});
	stage.addEventListener("pointermove", (event) => {
		if (!down || down.touch || !stage.classList.contains("near")) return;
		stage.scrollTo(down.left - (event.clientX - down.x), down.top - (event.clientY - down.y));
	});
	stage.addEventListener("pointerup", (event) => {
		if (!down) return;
		const [dx, dy] = [event.clientX - down.x, event.clientY - down.y];
		const box = image.getBoundingClientRect();
		if (!stage.classList.contains("near") && Math.abs(dx) > 40 && Math.abs(dx) > 2 * Math.abs(dy)) turn((dx < 0) === rtl ? -1 : 1);
		else if (Math.hypot(dx, dy) < 8) near(undefined, (event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height);
		down = null;
	});
	stage.addEventListener("pointercancel", () => (down = null));
	dialog.addEventListener("keydown", (event) => {
		if (stage.classList.contains("near") && event.target === stage) return;
		const step = { ArrowLeft: rtl ? 1 : -1, ArrowRight: rtl ? -1 : 1 }[event.key];
		if (step && links.length > 1) {
			event.preventDefault();
			turn(step);
		}
	});
	show(at);
	stage.focus();
}
