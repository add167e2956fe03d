// The list of what the map shows: legend and switch in one.
const layers = (() => {
  const sample = (draw) => {
    const sharp = 2, canvas = make("canvas", { width: 26 * sharp, height: 18 * sharp, "aria-hidden": "true" }), c = canvas.getContext("2d");
    c.scale(sharp, sharp);
    draw(c);
    return canvas;
  };
  const stroke = (c, dash = []) => { c.beginPath(); c.moveTo(2, 9); c.lineTo(24, 9); c.setLineDash(dash); };
  const ramps = () => {
    const canvas = make("canvas", { width: 255, height: 1, "aria-hidden": "true" }), c = canvas.getContext("2d"), image = c.createImageData(255, 1);
    ramp.forEach((colour, i) => image.data.set([...colour, 255], 4 * i));
    c.putImageData(image, 0, 0);
    return make("div", { class: "ramp" }, number(0), canvas, plainNumber(data.ground.most),
      sample((d) => { d.fillStyle = d.createPattern(notWatched, "repeat"); d.fillRect(0, 0, 26, 18); d.strokeStyle = "#4b5a5f"; d.strokeRect(0.5, 0.5, 25, 17); }), say("state_2"));
  };
  const has = (shapes) => shapes.points.length + shapes.lines.length + shapes.polygons.length > 0;
  const pattern = (c, canvas) => { c.fillStyle = c.createPattern(canvas, "repeat"); c.fillRect(0, 2, 26, 14); stroke(c); c.lineWidth = 2; c.strokeStyle = "#7a3e00"; c.stroke(); };

  /// [key, words, how it is drawn, whether there is any, whether it is on at first]
  const rows = () => [
    ["sites", say("layer_sites"), (c) => drawSite(c, 13, 9, "1"), trees.chosen.length > 0, true],
    ...[0, 1, 2, 3].map((state) => [`state_${state}`, say(`layer_state_${state}`), (c) => drawSign(c, state, 13, 9, stateSigns[state].size), trees.state.includes(state), true]),
    ["lines", say("layer_lines"), (c) => { stroke(c); strokeCased(c, ink, 3, 1); arrowHead(c, 11, 9, 0, 1); }, features.lines.length > 0, true],
    ["watches", say("layer_watches"), (c) => drawStation(c, 13, 9), features.watches.length > 0, true],
    ["flight", say("layer_flight"), (c) => ramp.forEach((colour, i) => { c.fillStyle = `rgb(${colour})`; c.fillRect((i * 26) / 255, 2, 1, 14); }), true, true],
    ["basemap", say("layer_basemap"), (c) => ["#8b9a72", "#6f8458", "#b3ab92"].forEach((colour, i) => { c.fillStyle = colour; c.fillRect(2 + 7.4 * i, 2, 7.4, 14); }), basemap !== null, true],
    ["gaps", say("layer_gaps"), (c) => { c.strokeStyle = "#7a3e00"; c.setLineDash([2, 1]); c.strokeRect(4, 3, 18, 12); }, ground.hasGaps, false],
    ["area", say("layer_area"), (c) => { stroke(c, [6, 3]); c.lineWidth = 1.5; c.strokeStyle = ink; c.stroke(); }, has(features.area), true],
    ["water", say("layer_water"), (c) => { c.fillStyle = "#8ebed6"; c.fillRect(2, 4, 22, 10); }, has(features.water), true],
    ["roads", say("layer_roads"), (c) => { stroke(c); c.lineWidth = 7; c.strokeStyle = "#5f5a52"; c.stroke(); c.lineWidth = 5; c.strokeStyle = "#f7f2e4"; c.stroke(); }, has(features.roads), true],
    ...features.avoid.map((layer, i) => [`avoid_${i}`, say("layer_avoid", { reason: layer.reason }), (c) => pattern(c, keepAway), has(layer.shapes), true]),
    ["lamps", say("layer_lamps"), (c) => drawLamp(c, 13, 9), has(features.lamps), true],
    ["roosts", say("layer_roosts"), (c) => drawRoost(c, 13, 12), has(features.roosts), true],
    ["boxes", say("layer_boxes"), (c) => drawBox(c, 13, 9), has(features.boxes), true],
    ["tags", say("layer_tags"), (c) => label(c, "12", 13, 9, "11px sans-serif"), trees.count > 0, true]
  ];
  return {
    build(shown, redraw) {
      const list = make("fieldset", {}, make("legend", {}, say("layers")));
      for (const [key, words, draw, any, on] of rows()) {
        shown[key] = any && on;
        if (!any) continue;
        const box = make("input", { type: "checkbox", name: key, checked: on, onchange: () => { shown[key] = box.checked; redraw(); } });
        list.append(make("label", { class: key === "basemap" ? "screen-only" : undefined }, box, sample(draw), words));
      }
      list.append(ramps());
      document.getElementById("layers").append(list);
    }
  };
})();
