// The trees: properties by place in the lists, and which lie in a part of the ground.
const trees = (() => {
  const { all, may, sentences } = data.trees;
  const count = all.tree.length;
  const x = Float64Array.from(all.x, (decimetres) => decimetres / 10);
  const y = Float64Array.from(all.y, (decimetres) => decimetres / 10);
  const state = Uint8Array.from(all.state);
  const place = new Int32Array(count).fill(-1);
  may.of.forEach((tree, i) => { place[tree] = i; });

  /// What is known only of trees that may hold a box; null of others.
  const known = (tree, key) => (place[tree] < 0 ? null : may[key][place[tree]]);
  const rank = (tree) => known(tree, "rank");
  const site = (tree) => known(tree, "site");
  const species = (tree) => all.species_names[all.species[tree]] || "";

  /// [{rule, state, who, ask, sentence}]
  const reasons = (tree) => {
    const told = all.reasons[tree], list = [];
    for (let i = 0; i < told.length; i += 2) {
      const [rule, of, who, ask] = all.kinds[told[i]];
      list.push({ rule, state: of, who, ask, sentence: sentences[told[i + 1]] });
    }
    return list;
  };
  const why = (tree) => (known(tree, "why") || []).map((i) => sentences[i]).join(" ");

  /// Flights an hour: below 0 it stands for "less than so many", where 0 would say that nothing was seen.
  const flights = (tree) => {
    const value = all.flights[tree];
    return value === null ? "" : value < 0 ? `<${plainNumber(-value)}` : plainNumber(value);
  };
  const again = (tree) => (state[tree] === 0 ? sentences[known(tree, "again")] : "");
  const health = (tree) => sentences[all.health[tree]];
  const condition = (tree) => sentences[all.condition[tree]];

  // Square cells of 25 m, each with the trees in it one after the other.
  const side = 25;
  let west = Infinity, south = Infinity, east = -Infinity, north = -Infinity;
  for (let i = 0; i < count; ++i) {
    west = Math.min(west, x[i]); east = Math.max(east, x[i]);
    south = Math.min(south, y[i]); north = Math.max(north, y[i]);
  }
  const columns = count ? Math.floor((east - west) / side) + 1 : 0;
  const rows = count ? Math.floor((north - south) / side) + 1 : 0;
  const start = new Int32Array(columns * rows + 1);
  const cell = (i) => Math.floor((y[i] - south) / side) * columns + Math.floor((x[i] - west) / side);
  for (let i = 0; i < count; ++i) ++start[cell(i) + 1];
  for (let c = 0; c < columns * rows; ++c) start[c + 1] += start[c];
  const order = new Int32Array(count), next = start.slice();
  for (let i = 0; i < count; ++i) order[next[cell(i)]++] = i;

  /// Calls `visit` with each tree in cells that touch the box.
  const within = (box, visit) => {
    const first = Math.max(0, Math.floor((box.west - west) / side)), last = Math.min(columns - 1, Math.floor((box.east - west) / side));
    const low = Math.max(0, Math.floor((box.south - south) / side)), high = Math.min(rows - 1, Math.floor((box.north - south) / side));
    for (let row = low; row <= high; ++row)
      for (let k = start[row * columns + first], end = start[row * columns + last + 1]; first <= last && k < end; ++k) visit(order[k]);
  };
  const countWithin = (box) => {
    const first = Math.max(0, Math.floor((box.west - west) / side)), last = Math.min(columns - 1, Math.floor((box.east - west) / side));
    const low = Math.max(0, Math.floor((box.south - south) / side)), high = Math.min(rows - 1, Math.floor((box.north - south) / side));
    let sum = 0;
    for (let row = low; row <= high && first <= last; ++row) sum += start[row * columns + last + 1] - start[row * columns + first];
    return sum;
  };
  const chosen = may.of.filter((tree) => site(tree) !== null);
  return { all, count, x, y, state, known, rank, site, species, reasons, why, flights, again, health, condition, within, countWithin, chosen };
})();

/// Longitude and latitude of a place on the map, by two parabolas through nine known places.
function onGlobe(x, y) {
  const { nano_degrees: known, width, height } = data.globe;
  const weights = (t) => [2 * (t - 0.5) * (t - 1), -4 * t * (t - 1), 2 * t * (t - 0.5)];
  const across = weights(x / width), up = weights(y / height);
  let lon = 0, lat = 0;
  for (let row = 0; row < 3; ++row)
    for (let column = 0; column < 3; ++column) {
      const weight = up[row] * across[column], place = known[3 * row + column];
      lon += weight * place[0]; lat += weight * place[1];
    }
  return { lon: lon / 1e9, lat: lat / 1e9 };
}

/// Coordinates to a metre and about as fine in degrees, with points, so that they can be copied.
function coordinates(key, x, y) {
  const { lon, lat } = onGlobe(x, y);
  return say(key, {
    east: (data.origin[0] + x).toFixed(0), north: (data.origin[1] + y).toFixed(0), crs: data.crs,
    lat: lat.toFixed(5), lon: lon.toFixed(5)
  });
}

function compassPoint(degrees) {
  return say("points").split(" ")[Math.round(degrees / 22.5) % 16];
}
