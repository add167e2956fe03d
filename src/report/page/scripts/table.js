// The table of trees: sorted by any column, filtered, fifty rows at a time.
const table = (() => {
  const pageRows = 50;
  const holder = document.getElementById("trees");
  const all = trees.all;
  const range = (tree) => {
    const low = all.low[tree];
    return make("small", {}, low === null ? " (?)" : ` (${plainNumber(low)}–${plainNumber(all.high[tree])})`);
  };
  const facings = (tree) => (trees.known(tree, "facings") || []).map(compassPoint).join(", ");
  /// Its site, or its state with the rules behind it.
  const standing = (tree) => {
    if (trees.site(tree) !== null) return say("site", { site: trees.site(tree) });
    if (trees.state[tree] === 0 && !trees.known(tree, "enough")) return say("little_evidence");
    const near = trees.known(tree, "near");
    if (near) return say("near_site", { site: near[0], metres: number(near[1]) });
    const rules = new Set(trees.reasons(tree).filter((reason) => reason.state === trees.state[tree]).map((reason) => reason.rule));
    return say(`state_${trees.state[tree]}`) + (rules.size > 0 ? `: ${[...rules].join(", ")}` : "");
  };
  const opener = (tree) => {
    const button = make("button", { type: "button", class: "tag", "data-tree": tree, onclick: () => card.open(tree, button) }, make("bdi", {}, all.tree[tree]));
    return button;
  };

  /// [key, number?, value to sort by, cell]
  const columns = [
    ["rank", true, (tree) => trees.rank(tree), (tree) => (trees.rank(tree) === null || trees.state[tree] !== 0 ? "" : number(trees.rank(tree)))],
    ["tree", false, (tree) => all.tree[tree], opener],
    ["state", false, standing, standing],
    ["flights", true, (tree) => (all.flights[tree] < 0 ? -all.flights[tree] / 2 : all.flights[tree]), (tree) => (all.flights[tree] === null ? "" : make("span", {}, trees.flights(tree), range(tree)))],
    ["evenings", true, (tree) => all.used[tree], (tree) => (all.watched[tree] === 0 ? say("no_evening") : say("of", { used: all.used[tree], watched: all.watched[tree] }))],
    ["hours", true, (tree) => all.hours[tree], (tree) => number(all.hours[tree], 1)],
    ["again", true, (tree) => (trees.state[tree] === 0 ? trees.known(tree, "stays") : null), trees.again],
    ["condition", false, trees.condition, trees.condition],
    ["facing", false, facings, facings],
    ["species", false, (tree) => trees.species(tree), (tree) => make("bdi", {}, trees.species(tree))],
    ["dbh", true, (tree) => all.dbh[tree], (tree) => (all.dbh[tree] === null ? "" : number(all.dbh[tree]))]
  ];
  const wanted = { words: "", state: "0", rule: "", sort: "rank", down: false, first: 0 };
  let rows = [];

  /// A rule may rule one tree out and leave another to be settled.
  const choice = (state, rule) => `${state} ${rule}`;
  const fits = () => {
    const words = wanted.words.trim().toLowerCase(), state = wanted.state === "" ? -1 : Number(wanted.state), list = [];
    for (let tree = 0; tree < trees.count; ++tree) {
      if (state >= 0 && trees.state[tree] !== state) continue;
      if (words && !all.tree[tree].toLowerCase().includes(words) && !trees.species(tree).toLowerCase().includes(words)) continue;
      if (wanted.rule && !trees.reasons(tree).some((reason) => choice(reason.state, reason.rule) === wanted.rule)) continue;
      list.push(tree);
    }
    return list;
  };
  const collator = new Intl.Collator(undefined, { numeric: true });
  const sorted = (list) => {
    const [, isNumber, value] = columns.find(([key]) => key === wanted.sort), values = new Map(list.map((tree) => [tree, value(tree)]));
    const empty = (v) => v === null || v === "";
    return list.sort((a, b) => {
      const va = values.get(a), vb = values.get(b);
      if (empty(va) || empty(vb)) return empty(va) - empty(vb) || a - b;   // what is not known comes last
      return (wanted.down ? -1 : 1) * (isNumber ? va - vb : collator.compare(va, vb)) || a - b;
    });
  };

  const heads = new Map();
  const body = make("tbody"), count = make("span", { role: "status" });
  const earlier = make("button", { type: "button", onclick: () => turn(-pageRows) }, say("earlier"));
  const later = make("button", { type: "button", onclick: () => turn(pageRows) }, say("later"));

  const draw = () => {
    const some = rows.slice(wanted.first, wanted.first + pageRows);
    body.replaceChildren(...some.map((tree) => make("tr", {}, ...columns.map(([, isNumber, , cell]) => make("td", isNumber ? { class: "number" } : {}, cell(tree))))));
    count.textContent = rows.length === 0 ? say("none") : say("rows", { first: number(wanted.first + 1), last: number(wanted.first + some.length), all: number(rows.length) });
    earlier.disabled = wanted.first === 0;
    later.disabled = wanted.first + pageRows >= rows.length;
    for (const [key, head] of heads) {
      if (key === wanted.sort) head.setAttribute("aria-sort", wanted.down ? "descending" : "ascending");
      else head.removeAttribute("aria-sort");
    }
  };
  const renew = () => { rows = sorted(fits()); wanted.first = 0; draw(); };
  const turn = (by) => { wanted.first += by; draw(); };

  /// Up and down go from tree to tree.
  body.addEventListener("keydown", (event) => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (!step || !event.target.classList.contains("tag")) return;
    const buttons = [...body.querySelectorAll(".tag")], next = buttons[buttons.indexOf(event.target) + step];
    if (next) { next.focus(); event.preventDefault(); }
  });

  const select = (key, options, change) => make("label", {}, say(key), make("select", { onchange: (event) => { change(event.target.value); renew(); } }, ...options));
  const filters = () => {
    const rules = (state) => make("optgroup", { label: say(`layer_state_${state}`) },
      ...[...new Set(all.kinds.filter((kind) => kind[1] === state).map(([rule]) => rule))].sort(collator.compare)
        .map((rule) => make("option", { value: choice(state, rule) }, rule)));
    const input = make("input", { type: "search", oninput: () => { wanted.words = input.value; renew(); } });
    return make("div", { class: "filters only-scripts" }, make("label", {}, say("find"), input),
      select("show", [make("option", { value: "" }, say("any_state")),
        ...[0, 1, 2, 3].map((state) => make("option", { value: state, selected: state === 0 }, say(`state_${state}`)))], (value) => { wanted.state = value; }),
      select("rule", [make("option", { value: "" }, say("any_rule")), rules(1), rules(3)], (value) => { wanted.rule = value; if (value) filtered(""); }));
  };
  const filtered = (state) => {
    wanted.state = state;
    holder.querySelectorAll("select")[0].value = state;
  };
  const head = ([key, isNumber]) => {
    const cell = make("th", { scope: "col", class: isNumber ? "number" : undefined }, make("button", {
      type: "button", onclick: () => { wanted.down = wanted.sort === key ? !wanted.down : isNumber && key !== "rank"; wanted.sort = key; renew(); }
    }, say(key)));
    heads.set(key, cell);
    return cell;
  };
  return {
    start() {
      holder.replaceChildren(filters(), make("p", { class: "slide" }, say("slide")),
        make("div", { class: "wide", role: "region", tabindex: "0", "aria-label": say("table") }, make("table", {}, make("thead", {}, make("tr", {}, ...columns.map(head))), body)),
        make("div", { class: "pages" }, earlier, later, count));
      renew();
    },
    opener,
    /// All trees that a rule takes.
    showRule(state, rule) {
      wanted.rule = choice(state, rule);
      filtered("");
      holder.querySelectorAll("select")[1].value = wanted.rule;
      renew();
      document.getElementById("trees-part").scrollIntoView();
      holder.querySelectorAll("select")[1].focus({ preventScroll: true });
    }
  };
})();
