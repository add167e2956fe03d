// The map, what can be switched on and off, and what it says of the pointer's place.
const map = (() => {
  const holder = document.getElementById("map"), extent = [[0, 0], [data.globe.height, data.globe.width]];
  const chart = L.map(holder, {
    crs: L.CRS.Simple, zoomSnap: 0.5, zoomDelta: 1, minZoom: -8, maxZoom: 5, zoomControl: false, attributionControl: false,
    zoomAnimation: false, fadeAnimation: false, markerZoomAnimation: false, inertia: false, scrollWheelZoom: false, doubleClickZoom: false
  });
  holder.setAttribute("role", "application");
  holder.setAttribute("aria-label", say("map"));
  const shown = {};
  let marked = null;

  const order = ["basemap", "flight", "gaps", "water", "area", "roads", "avoid", "watches", "lines", "lamps", "roosts", "boxes"];
  let printing = false;
  const paint = (view) => {
    view.overPicture = shown.basemap && !printing;
    for (const key of order) {
      if (key === "basemap" && !view.overPicture) continue;
      if (key === "avoid") features.avoid.forEach((layer, i) => { if (shown[`avoid_${i}`]) paintAvoided(view, layer); });
      else if (shown[key]) groundPainters[key](view);
    }
    const states = [0, 1, 2, 3].map((state) => shown[`state_${state}`]);
    paintTrees(view, states);
    if (shown.sites) paintSites(view);
    paintNames(view, shown, states);
    if (marked !== null) paintRing(view, marked);
  };
  const sheet = new Sheet(paint);

  const { west, north, cell } = data.ground, { left, right, top, bottom } = ground.watched;
  const whole = () => chart.fitBounds(left < right ? [[north - bottom * cell, west + left * cell], [north - top * cell, west + right * cell]] : extent, { animate: false });

  /// The tree that a place of the map means, or null.
  const treeAt = (latlng) => {
    const reach = 13 / chart.options.crs.scale(chart.getZoom());
    let best = null, least = reach * reach;
    trees.within({ west: latlng.lng - reach, east: latlng.lng + reach, south: latlng.lat - reach, north: latlng.lat + reach }, (tree) => {
      const chosen = shown.sites && trees.site(tree) !== null;
      if (!chosen && !shown[`state_${trees.state[tree]}`]) return;
      const away = ((trees.x[tree] - latlng.lng) ** 2 + (trees.y[tree] - latlng.lat) ** 2) * (chosen ? 0.3 : 1);
      if (away < least) { least = away; best = tree; }
    });
    return best;
  };

  const pointer = document.getElementById("pointer");
  pointer.textContent = say("pointer_hint");
  chart.on("mousemove", (event) => {
    pointer.textContent = coordinates("pointer", event.latlng.lng, event.latlng.lat);
    holder.style.cursor = treeAt(event.latlng) === null ? "" : "pointer";
  });
  chart.on("mouseout", () => { pointer.textContent = say("pointer_hint"); });
  chart.on("click", (event) => {
    const tree = treeAt(event.latlng);
    if (tree !== null) card.open(tree, holder);
  });
  // The wheel scrolls the page until somebody works with the map.
  chart.on("focus", () => chart.scrollWheelZoom.enable()).on("blur", () => chart.scrollWheelZoom.disable());

  const zoom = document.getElementById("zoom");
  zoom.append(
    make("button", { type: "button", onclick: () => chart.zoomIn() }, say("zoom_in")),
    make("button", { type: "button", onclick: () => chart.zoomOut() }, say("zoom_out")),
    make("button", { type: "button", onclick: whole }, say("whole")));

  const furnish = () => {
    const north = make("div", { class: "furniture north", "aria-hidden": "true" });
    const arrow = document.createElementNS("http://www.w3.org/2000/svg", "svg");
    arrow.setAttribute("viewBox", "-11 -17 22 34");
    const path = document.createElementNS("http://www.w3.org/2000/svg", "path");
    path.setAttribute("d", "M0 -16L7 14L0 8L-7 14Z");
    path.setAttribute("transform", `rotate(${-data.convergence})`);
    arrow.append(path);
    north.append(say("north"), arrow);
    const words = make("b"), bar = make("span"), scale = make("div", { class: "furniture scale-bar", "aria-hidden": "true" }, words, bar);
    holder.append(north, scale);
    const measure = () => {
      const perMetre = chart.options.crs.scale(chart.getZoom()), longest = 130 / perMetre, step = 10 ** Math.floor(Math.log10(longest));
      const metres = [5, 2, 1].map((times) => times * step).find((length) => length <= longest);
      words.textContent = say("scale", { value: number(metres, metres < 1 ? 1 : 0) });
      bar.style.width = `${metres * perMetre}px`;
    };
    chart.on("zoomend", measure);
    measure();
  };

  const redraw = () => sheet.redraw();
  return {
    start() {
      layers.build(shown, redraw);
      whole();
      chart.setMaxBounds(L.latLngBounds(extent).pad(0.5));
      sheet.addTo(chart);
      furnish();
      if (basemap) basemap.ready.then(redraw, () => {});
      // Paper shows no picture: it would take much ink and hide the lines.
      window.addEventListener("beforeprint", () => { printing = true; chart.invalidateSize({ animate: false }); whole(); redraw(); });
      window.addEventListener("afterprint", () => { printing = false; redraw(); });
    },
    /// Marks a tree and brings it into view.
    show(tree) {
      marked = tree;
      if (tree !== null) {
        const place = L.latLng(trees.y[tree], trees.x[tree]);
        if (!chart.getBounds().pad(-0.1).contains(place)) chart.panTo(place, { animate: false });
      }
      redraw();
    },
    chart
  };
})();
