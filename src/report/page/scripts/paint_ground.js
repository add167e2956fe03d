// All that lies under the trees on the map.

function trace(view, decimetres, close = false) {
  const { c } = view;
  for (let i = 0; i < decimetres.length; i += 2) {
    const x = view.x(decimetres[i] / 10), y = view.y(decimetres[i + 1] / 10);
    if (i === 0) c.moveTo(x, y); else c.lineTo(x, y);
  }
  if (close) c.closePath();
}

function tracePolygons(view, shapes) {
  view.c.beginPath();
  for (const rings of shapes.polygons) for (const ring of rings) trace(view, ring, true);
}

function traceShapes(view, shapes) {
  tracePolygons(view, shapes);
  for (const line of shapes.lines) trace(view, line);
}

function eachPoint(view, shapes, draw) {
  for (let i = 0; i < shapes.points.length; i += 2) draw(view.c, view.x(shapes.points[i] / 10), view.y(shapes.points[i + 1] / 10));
}

function paintPicture(view, canvas, smooth) {
  const { west, north, cell, rows, columns } = data.ground, { c } = view;
  c.imageSmoothingEnabled = smooth;
  c.drawImage(canvas, view.x(west), view.y(north), columns * cell * view.scale, rows * cell * view.scale);
}

const features = data.features;
const groundPainters = {
  basemap(view) { basemap.paint(view); },
  flight(view) {
    view.c.fillStyle = view.c.createPattern(view.overPicture ? notWatchedOnPicture : notWatched, "repeat");
    view.c.fillRect(0, 0, view.width, view.height);
    paintPicture(view, view.overPicture ? ground.sheerFlight : ground.flight, true);
  },
  gaps(view) { paintPicture(view, ground.gaps, false); },
  water(view) {
    tracePolygons(view, features.water);
    view.c.fillStyle = "rgba(142, 190, 214, .75)"; view.c.fill("evenodd");
    traceShapes(view, features.water);
    strokeCased(view.c, "#2f6f93", 1.8, 0.8);
  },
  area(view) {
    traceShapes(view, features.area);
    view.c.setLineDash([9, 5]);
    view.c.lineWidth = 1.5; view.c.strokeStyle = ink; view.c.stroke();
    view.c.setLineDash([]);
  },
  roads(view) {
    traceShapes(view, features.roads);
    const wide = Math.max(3, Math.min(12, 5 * view.scale));
    view.c.lineJoin = view.c.lineCap = "round";
    view.c.lineWidth = wide + 2; view.c.strokeStyle = "#5f5a52"; view.c.stroke();
    view.c.lineWidth = wide; view.c.strokeStyle = "#f7f2e4"; view.c.stroke();
  },
  lamps(view) { eachPoint(view, features.lamps, drawLamp); },
  roosts(view) { eachPoint(view, features.roosts, drawRoost); },
  boxes(view) { eachPoint(view, features.boxes, drawBox); },
  lines(view) {
    const most = Math.max(...features.lines.map((line) => line.density));
    for (const line of features.lines) paintLine(view, line, 1.5 + 4 * Math.sqrt(line.density / most));
  },
  watches(view) {
    const near = watchPlaces.filter((place) => place.path.length > 2 || touches(view.box, place));
    const dash = near.length > 40 ? [] : [2, 4];   // dashes of very many circles would be slow
    view.c.lineWidth = dash.length > 0 ? 1.3 : 0.7; view.c.strokeStyle = ink;
    view.c.setLineDash(dash);
    for (const place of near) paintView(view, place);
    view.c.setLineDash([]);
    for (const { path } of near) if (path.length === 2) drawStation(view.c, view.x(path[0] / 10), view.y(path[1] / 10));
  }
};

function paintAvoided(view, layer) {
  const { c } = view;
  traceShapes(view, layer.shapes);
  for (let i = 0; i < layer.shapes.points.length; i += 2) {
    c.moveTo(view.x(layer.shapes.points[i] / 10), view.y(layer.shapes.points[i + 1] / 10));
    c.lineTo(view.x(layer.shapes.points[i] / 10) + 0.01, view.y(layer.shapes.points[i + 1] / 10));
  }
  const pattern = c.createPattern(keepAway, "repeat");
  c.lineJoin = c.lineCap = "round";
  c.lineWidth = Math.max(3, 2 * layer.within * view.scale); c.strokeStyle = pattern; c.stroke();
  c.lineWidth = 2; c.strokeStyle = "#7a3e00"; c.stroke();
}

/// Watches from one place with one view are drawn once; the first of a place bears all names of the place.
const watchPlaces = [...new Map(features.watches.map((watch) => [JSON.stringify([watch.path, watch.seen, watch.look, watch.view]), { ...watch }])).values()];
const namesAt = new Map();
for (const { path, name } of features.watches) {
  const names = namesAt.get(String(path)) || new Set();
  namesAt.set(String(path), names.add(name));
}
for (const place of watchPlaces) {
  const names = [...(namesAt.get(String(place.path)) || [])];
  namesAt.delete(String(place.path));
  place.names = names.length > 0 ? joinedNames(names) : "";
}

/// Whether a station's view reaches into the box.
function touches(box, { path: [x, y], seen }) {
  return x / 10 + seen > box.west && x / 10 - seen < box.east && y / 10 + seen > box.south && y / 10 - seen < box.north;
}

function paintView(view, place) {
  const { c } = view;
  c.beginPath();
  if (place.path.length > 2) trace(view, place.path);
  else {
    const x = view.x(place.path[0] / 10), y = view.y(place.path[1] / 10), r = place.seen * view.scale;
    if (place.view === undefined) c.arc(x, y, r, 0, 2 * Math.PI);
    else {
      const look = ((place.look - 90) * Math.PI) / 180, half = (place.view * Math.PI) / 360;
      c.moveTo(x, y); c.arc(x, y, r, look - half, look + half); c.closePath();
    }
  }
  c.stroke();
}

/// As wide as it is used; arrow heads every 90 pixels the ways it is flown.
function paintLine(view, line, width) {
  const { c } = view, path = line.path, points = [];
  c.beginPath();
  trace(view, path);
  strokeCased(c, ink, width);
  for (let i = 0; i < path.length; i += 2) points.push([view.x(path[i] / 10), view.y(path[i + 1] / 10)]);
  let wait = 30;
  for (let i = 1; i < points.length; ++i) {
    const [ax, ay] = points[i - 1], [bx, by] = points[i], length = Math.hypot(bx - ax, by - ay);
    for (; wait < length; wait += 90) {
      const share = wait / length, turn = Math.atan2(by - ay, bx - ax);
      if (line.arrows === "ahead" || line.arrows === "both") arrowHead(c, ax + share * (bx - ax), ay + share * (by - ay), turn, width);
      if (line.arrows === "back" || line.arrows === "both") arrowHead(c, ax + share * (bx - ax), ay + share * (by - ay), turn + Math.PI, width);
    }
    wait -= length;
  }
}

function arrowHead(c, x, y, turn, width) {
  const size = 6 + width;
  c.save();
  c.translate(x, y); c.rotate(turn); c.translate(6, 0);
  c.beginPath(); c.moveTo(size, 0); c.lineTo(0, 0.62 * size); c.lineTo(0, -0.62 * size); c.closePath();
  c.fillStyle = ink; c.strokeStyle = white; c.lineWidth = 1.2; c.fill(); c.stroke();
  c.restore();
}

function label(c, text, x, y, font) {
  c.font = font; c.textAlign = "center"; c.textBaseline = "middle"; c.lineJoin = "round";
  c.lineWidth = 3.5; c.strokeStyle = "rgba(255, 255, 255, .92)"; c.strokeText(text, x, y);
  c.fillStyle = ink; c.fillText(text, x, y);
}
