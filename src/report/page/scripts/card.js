// The card of a tree.
const card = (() => {
  const holder = document.getElementById("card");
  let back = null;

  const row = (key, text) => (text === null ? null : make("tr", {}, make("th", { scope: "row" }, say(key)), make("td", {}, text)));
  const measured = (tree, key, unit, decimals = 0) => {
    const value = trees.known(tree, key);
    return value === null ? null : say(unit, { value: number(value, decimals) });
  };
  const plain = (value, unit, decimals = 0) => (value === null ? null : say(unit, { value: number(value, decimals) }));

  const facings = (tree) => {
    const all = trees.known(tree, "facings") || [];
    return all.length === 0 ? null : all.map((degrees) => say("card_facing_is", { point: compassPoint(degrees), degrees: number(degrees) })).join(", ");
  };
  const flights = (tree) => {
    const value = trees.all.flights[tree], low = trees.all.low[tree], high = trees.all.high[tree];
    if (value === null) return null;
    if (value === 0) return high === null ? say("card_none_seen") : say("card_none_seen_at_most", { high: plainNumber(high) });
    const told = value < 0 ? say("card_under", { step: plainNumber(-value) }) : plainNumber(value);
    return low === null ? say("card_no_range", { value: told }) : say("card_range", { value: told, low: plainNumber(low), high: plainNumber(high) });
  };
  const evenings = (tree) => {
    const watched = trees.all.watched[tree];
    return watched === 0 ? say("no_evening") : say("card_evenings_is", { used: trees.all.used[tree], watched });
  };
  const line = (tree) => {
    const id = trees.known(tree, "line");
    return id === null ? null : say("card_line_is", { line: id, offset: number(trees.known(tree, "line_offset")) });
  };
  const sun = (tree) => {
    const warm = trees.known(tree, "sun_warm");
    return warm === null ? null : say("card_sun_is", { warm: number(warm, 1), cold: number(trees.known(tree, "sun_cold"), 1) });
  };
  const light = (tree) => {
    const lux = trees.known(tree, "lux");
    return lux !== null && lux < 0.005 ? say("card_lux_under", { value: number(0.01, 2) }) : measured(tree, "lux", "card_lux_is", 2);
  };
  const rows = (...all) => make("table", {}, make("tbody", {}, ...all));
  const titled = (key, content) => (content ? make("div", {}, make("h3", {}, say(key)), content) : null);
  const flies = (tree) => rows(row("card_flights", flights(tree)), row("card_evenings", evenings(tree)),
    row("card_hours", number(trees.all.hours[tree], 1)), row("card_line", line(tree)));
  const again = (tree) => {
    const share = trees.again(tree), group = trees.known(tree, "group"), texts = [];
    if (share) texts.push(say("card_again_is", { share, redrawn: data.again }));
    if (group) texts.push(say("card_group", { group }));
    return texts.length > 0 ? make("p", {}, texts.join(" ")) : null;
  };
  const facts = (tree) => make("table", {}, make("tbody", {},
    row("species", trees.species(tree) || null), row("card_trunk", plain(trees.all.dbh[tree], "cm")),
    row("card_height", plain(trees.all.height[tree], "metres", 1)), row("card_health", trees.health(tree)), row("card_facing", facings(tree)),
    row("card_clear", measured(tree, "clear", "metres")), row("card_drop", measured(tree, "drop", "metres", 1)), row("card_sun", sun(tree)),
    row("card_lux", light(tree)), row("card_lamp", measured(tree, "lamp", "metres")),
    row("card_water", measured(tree, "water", "metres")), row("card_road", measured(tree, "road", "metres"))));

  /// What its score is made of, each part with a bar.
  const bar = (share) => {
    const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg"), rect = document.createElementNS("http://www.w3.org/2000/svg", "rect");
    svg.setAttribute("viewBox", "0 0 90 9");
    svg.setAttribute("aria-hidden", "true");
    rect.setAttribute("width", String(90 * share));
    rect.setAttribute("height", "9");
    svg.append(rect);
    return svg;
  };
  const parts = (tree) => {
    const told = trees.known(tree, "parts");
    if (told === null) return null;
    const share = (words, value) => make("tr", {}, make("th", { scope: "row" }, words),
      make("td", {}, (value < 0 ? "− " : "") + number(Math.abs(value))), make("td", {}, bar(Math.abs(value) / 100)));
    return make("div", {}, make("h3", {}, say("card_parts")), make("table", { class: "parts" }, make("tbody", {},
      ...told.map((value, i) => share(say(`part_${data.trees.may.part_names[i].replace(" ", "_")}`), value)), share(say("card_score"), trees.known(tree, "score")))));
  };
  const reasons = (tree) => {
    const all = trees.reasons(tree);
    if (all.length === 0) return null;
    return make("div", {}, make("h3", {}, say("card_reasons")), make("ul", {}, ...all.map(({ sentence, who, ask }) =>
      make("li", {}, sentence, who && ask ? make("p", {}, make("b", {}, say("card_ask", { who, ask }))) : null))));
  };
  const standing = (tree) => {
    const words = [say(`state_${trees.state[tree]}`)], site = trees.site(tree), rank = trees.rank(tree);
    if (site !== null) words.unshift(say("site", { site }));
    if (rank !== null) words.push(say(trees.state[tree] === 0 ? "card_rank" : "card_would_rank", { rank: number(rank) }));
    return words.join(" · ");
  };
  const part = (key, text) => (text ? make("div", {}, make("h3", {}, say(key)), make("p", { dir: "auto" }, text)) : null);

  const close = () => {
    if (holder.hidden) return;
    holder.hidden = true;
    map.show(null);
    if (back && back.isConnected) back.focus({ preventScroll: true });
  };
  document.addEventListener("keydown", (event) => { if (event.key === "Escape") close(); });

  return {
    open(tree, from) {
      back = from;
      const title = make("h2", { id: "card-title", tabindex: "-1" }, `${say("tree")} `, make("bdi", {}, trees.all.tree[tree]));
      holder.replaceChildren(...[title, make("button", { type: "button", class: "close", onclick: close }, say("close")),
        make("p", { class: "state" }, standing(tree)), part("card_way", trees.known(tree, "way")),
        part("card_place", coordinates("card_place_is", trees.x[tree], trees.y[tree])), part("card_why", trees.why(tree)), reasons(tree),
        titled("card_flies", flies(tree)), titled("card_again", again(tree)), titled("card_what", facts(tree)), parts(tree)].filter((child) => child !== null));
      holder.hidden = false;
      holder.scrollTop = 0;
      map.show(tree);
      title.focus({ preventScroll: true });
    }
  };
})();
