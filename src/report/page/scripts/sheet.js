// A layer of Leaflet that is one canvas, somewhat larger than the map, drawn anew when the map has moved.
const Sheet = L.Layer.extend({
  initialize(paint) { this.paint = paint; },
  onAdd(map) {
    this.canvas = make("canvas", { class: "sheet", "aria-hidden": "true" });
    map.getPane("overlayPane").append(this.canvas);
    map.on("moveend", this.redraw, this).on("move", this.follow, this);
    this.redraw();
  },
  onRemove(map) {
    map.off("moveend", this.redraw, this).off("move", this.follow, this);
    this.canvas.remove();
  },
  /// While it is dragged the map takes the canvas along; it is drawn anew before its edge comes into view.
  follow() {
    const moved = this._map.containerPointToLayerPoint([0, 0]).subtract(this.corner);
    if (Math.abs(moved.x) > this.margin || Math.abs(moved.y) > this.margin) this.redraw();
  },
  redraw() {
    const size = this._map.getSize(), margin = Math.round(0.2 * Math.max(size.x, size.y));
    const width = size.x + 2 * margin, height = size.y + 2 * margin, sharp = Math.min(2, window.devicePixelRatio || 1);
    this.margin = margin;
    this.corner = this._map.containerPointToLayerPoint([0, 0]);
    L.DomUtil.setPosition(this.canvas, this.corner.subtract([margin, margin]));
    if (this.canvas.width !== Math.round(width * sharp) || this.canvas.height !== Math.round(height * sharp)) {
      this.canvas.width = Math.round(width * sharp);
      this.canvas.height = Math.round(height * sharp);
      this.canvas.style.width = `${width}px`;
      this.canvas.style.height = `${height}px`;
    }
    const scale = this._map.options.crs.scale(this._map.getZoom()), zero = this._map.latLngToContainerPoint([0, 0]).add([margin, margin]);
    const c = this.canvas.getContext("2d");
    c.setTransform(sharp, 0, 0, sharp, 0, 0);
    c.clearRect(0, 0, width, height);
    this.paint({
      c, width, height, scale, sharp, x: (metres) => zero.x + scale * metres, y: (metres) => zero.y - scale * metres,
      box: { west: -zero.x / scale, east: (width - zero.x) / scale, south: (zero.y - height) / scale, north: zero.y / scale }
    });
  }
});
