// Names on the map, each where it covers least.
class Labels {
  constructor(view) {
    this.view = view;
    this.columns = Math.ceil(view.width / Labels.cell); this.rows = Math.ceil(view.height / Labels.cell);
    this.marks = new Uint8Array(this.columns * this.rows);   // of small squares of the map: 1 something lies there, 2 it must stay seen
  }

  /// Calls `visit` with each square that touches the box about a middle.
  each(x, y, halfWidth, halfHeight, visit) {
    const held = (value, count) => Math.max(0, Math.min(count - 1, Math.floor(value / Labels.cell)));
    const left = held(x - halfWidth, this.columns), right = held(x + halfWidth, this.columns);
    const top = held(y - halfHeight, this.rows), bottom = held(y + halfHeight, this.rows);
    for (let row = top; row <= bottom; ++row) for (let column = left; column <= right; ++column) visit(row * this.columns + column);
  }
  mark(x, y, half, value) {
    this.each(x, y, half, half, (square) => { this.marks[square] = Math.max(this.marks[square], value); });
  }
  markTrees(shown) {
    trees.within(this.view.box, (tree) => { if (shown[trees.state[tree]]) this.mark(this.view.x(trees.x[tree]), this.view.y(trees.y[tree]), 3, 1); });
  }

  halfWidth(text, font) {
    this.view.c.font = font;
    return this.view.c.measureText(text).width / 2 + 2;
  }

  /// Writes a text about one of some middles: that where it hides least, and the first of several. Where each would hide
  /// what must stay seen, it is left out, unless it must be told. Returns whether it was written.
  write(text, font, height, middles, must = false) {
    const halfWidth = this.halfWidth(text, font), halfHeight = height / 2;
    let best = null, least = Infinity;
    for (const [x, y] of middles) {
      let hidden = 0;
      this.each(x, y, halfWidth, halfHeight, (square) => { hidden += this.marks[square] === 2 ? 1000 : this.marks[square]; });
      if (hidden < least) { least = hidden; best = [x, y]; }
    }
    if (best === null || (least >= 1000 && !must)) return false;
    label(this.view.c, text, ...best, font);
    this.each(...best, halfWidth, halfHeight, (square) => { this.marks[square] = 2; });
    return true;
  }
}
Labels.cell = 4;

/// To the left and to the right of a line: first about its middle, then nearer to its ends.
function besideLine(view, path, away) {
  const points = [];
  for (let i = 0; i < path.length; i += 2) points.push([view.x(path[i] / 10), view.y(path[i + 1] / 10)]);
  const lengths = points.slice(1).map(([x, y], i) => Math.hypot(x - points[i][0], y - points[i][1]));
  const whole = lengths.reduce((sum, length) => sum + length, 0), middles = [];
  for (const share of [0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95]) {
    let i = 0, along = share * whole;
    while (i < lengths.length - 1 && along > lengths[i]) along -= lengths[i++];
    const [ax, ay] = points[i], [bx, by] = points[i + 1], length = lengths[i] || 1, x = ax + ((bx - ax) * along) / length, y = ay + ((by - ay) * along) / length;
    for (const side of [-away, away]) middles.push([x - (side * (by - ay)) / length, y + (side * (bx - ax)) / length]);
  }
  return middles;
}

/// "footbridge-1, 2, 3": what names have in common is told once.
function joinedNames(names) {
  const most = 4, [first] = names, cut = (text) => (text.length > 30 ? `${text.slice(0, 29)}…` : text);
  let common = 0;
  while (names.length > 1 && common < first.length && names.every((name) => name[common] === first[common])) ++common;
  while (common > 0 && /[\p{L}\p{N}]/u.test(first[common - 1])) --common;
  const rest = names.slice(1, most).map((name) => name.slice(common) || name);
  return [first, ...rest].map(cut).join(", ") + (names.length > most ? " …" : "");
}

const mostLineNames = 60, mostWatchNames = 40, watchFont = "italic 12px sans-serif";
function paintNames(view, shown, states) {
  const labels = new Labels(view);
  if (trees.countWithin(view.box) <= mostSigns) labels.markTrees(states);
  if (shown.sites) for (const tree of trees.chosen) labels.mark(view.x(trees.x[tree]), view.y(trees.y[tree]), 12, 2);
  const stations = shown.watches ? watchPlaces.filter((place) => place.names && place.path.length === 2 && touches(view.box, place)) : [];
  for (const { path } of stations) labels.mark(view.x(path[0] / 10), view.y(path[1] / 10), 6, 2);
  for (const kind of ["lamps", "roosts", "boxes"])
    if (shown[kind]) eachPoint(view, features[kind], (_, x, y) => { if (x > 0 && y > 0 && x < view.width && y < view.height) labels.mark(x, y, 6, 1); });
  const lines = shown.lines ? features.lines.slice(0, mostLineNames) : [];
  for (const { path } of lines) for (const [x, y] of besideLine(view, path, 0)) labels.mark(x, y, 4, 1);
  for (const { id, path } of lines) labels.write(id, "600 14px sans-serif", 14, besideLine(view, path, 17), true);
  if (stations.length <= mostWatchNames)
    for (const { path, names } of stations) {
      const x = view.x(path[0] / 10), y = view.y(path[1] / 10), beside = labels.halfWidth(names, watchFont) + 12;
      labels.write(names, watchFont, 12, [[x, y + 18], [x, y - 19], [x + beside, y], [x - beside, y], [x + beside, y + 14], [x - beside, y + 14],
        [x + beside, y - 14], [x - beside, y - 14], [x, y + 32], [x, y - 33]]);
    }
  if (shown.tags && view.scale >= tagsFrom) paintTags(view, labels, states);
}
