// The trees on the map: signs where there is room for them, dots where they are many.
const mostSigns = 6000, mostTags = 250, tagsFrom = 3;

function paintTrees(view, shown) {
  if (trees.countWithin(view.box) > mostSigns) paintDots(view, shown);
  else paintSigns(view, shown);
}

function paintSigns(view, shown) {
  const size = Math.min(1.5, Math.max(0.62, 0.55 + 0.28 * view.scale)), seen = [[], [], [], []];
  trees.within(view.box, (tree) => seen[trees.state[tree]].push(tree));
  for (const state of [3, 2, 0, 1]) {
    if (!shown[state] || seen[state].length === 0) continue;
    const sign = stateSigns[state], { c } = view;
    c.beginPath();
    for (const tree of seen[state]) sign.trace(c, view.x(trees.x[tree]), view.y(trees.y[tree]), sign.size * size);
    if (!sign.fill) { c.lineWidth = 3; c.strokeStyle = "rgba(255, 255, 255, .6)"; c.stroke(); }
    if (sign.fill) { c.fillStyle = sign.fill; c.fill(); }
    c.lineWidth = sign.fill ? 1 : 1.4; c.strokeStyle = sign.edge; c.stroke();
  }
}

/// Four pixels a tree, or one where they would hide the ground, written into one image.
const dots = make("canvas");
function paintDots(view, shown) {
  const width = Math.round(view.width * view.sharp), height = Math.round(view.height * view.sharp);
  dots.width = width; dots.height = height;
  const context = dots.getContext("2d"), image = context.createImageData(width, height), pixels = new Uint32Array(image.data.buffer);
  const crowded = trees.countWithin(view.box) > 0.04 * width * height, alpha = crowded ? 150 : 255;
  const colours = dotColours.map(([red, green, blue]) => ((alpha << 24) | (blue << 16) | (green << 8) | red) >>> 0);
  const west = view.x(0) * view.sharp, north = view.y(0) * view.sharp, scale = view.scale * view.sharp;
  const groups = [3, 2, 1, 0].filter((state) => shown[state]);
  for (const state of groups)
    trees.within(view.box, (tree) => {
      if (trees.state[tree] !== state) return;
      const x = Math.round(west + scale * trees.x[tree]), y = Math.round(north - scale * trees.y[tree]);
      if (x < 1 || y < 1 || x >= width - 1 || y >= height - 1) return;
      const at = y * width + x;
      pixels[at] = colours[state];
      if (!crowded) pixels[at - 1] = pixels[at - width] = pixels[at - width - 1] = colours[state];
    });
  context.putImageData(image, 0, 0);
  view.c.drawImage(dots, 0, 0, view.width, view.height);
}

/// Tags that cover nothing else that is written, the first ones by place.
function paintTags(view, labels, shown) {
  let written = 0;
  trees.within(view.box, (tree) => {
    if (written >= mostTags || !shown[trees.state[tree]] || trees.site(tree) !== null) return;
    if (labels.write(trees.all.tree[tree].slice(0, 24), "12px sans-serif", 12, [[view.x(trees.x[tree]), view.y(trees.y[tree]) + 15]])) ++written;
  });
}

function paintSites(view) {
  for (const tree of trees.chosen) drawSite(view.c, view.x(trees.x[tree]), view.y(trees.y[tree]), String(trees.site(tree)));
}

function paintRing(view, tree) {
  view.c.beginPath();
  view.c.arc(view.x(trees.x[tree]), view.y(trees.y[tree]), 17, 0, 7);
  strokeCased(view.c, "#a8321a", 2.5);
}
