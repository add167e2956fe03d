// Colours of flight: lightness falls in even steps of OKLab (B. Ottosson 2020) from paper to dark, so that the order
// reads without hue, by colour-blind people and in grey; the hue only turns from sand to blue beside it.
const ramp = (() => {
  const colour = (share) => {
    const lightness = 0.955 - 0.675 * share, chroma = 0.03 + 0.08 * Math.sin(Math.PI * share ** 0.9);
    const hue = ((78 + 187 * share) * Math.PI) / 180;
    const a = chroma * Math.cos(hue), b = chroma * Math.sin(hue);
    const l = (lightness + 0.3963377774 * a + 0.2158037573 * b) ** 3;
    const m = (lightness - 0.1055613458 * a - 0.0638541728 * b) ** 3;
    const s = (lightness - 0.0894841775 * a - 1.291485548 * b) ** 3;
    return [4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s, -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s,
      -0.0041960863 * l - 0.7034186147 * m + 1.707614701 * s].map((light) => {
      const value = light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055;
      return Math.round(255 * Math.min(1, Math.max(0, value)));
    });
  };
  return Array.from({ length: 255 }, (_, i) => colour(i / 254));
})();

/// A canvas of its own with a pixel for each of `values`; `paint` gives [red, green, blue, alpha] or null.
function picture(columns, rows, paint) {
  const canvas = make("canvas", { width: Math.max(1, columns), height: Math.max(1, rows) });
  const context = canvas.getContext("2d"), image = context.createImageData(canvas.width, canvas.height);
  for (let i = 0; i < columns * rows; ++i) {
    const colour = paint(i);
    if (colour) image.data.set(colour, 4 * i);
  }
  context.putImageData(image, 0, 0);
  return canvas;
}

const ground = (() => {
  const { rows, columns } = data.ground, flight = bytes(data.ground.flight), bits = bytes(data.ground.gaps);
  const gap = (i) => bits.length > 0 && (bits[i >> 3] & (128 >> (i & 7))) !== 0;
  const inner = (i) => {
    const column = i % columns;
    return column > 0 && column < columns - 1 && i >= columns && i < columns * (rows - 1) &&
      gap(i - 1) && gap(i + 1) && gap(i - columns) && gap(i + columns);
  };
  // The ground that was watched, in cells.
  const watched = { left: columns, right: 0, top: rows, bottom: 0 };
  flight.forEach((value, i) => {
    if (value === 0) return;
    const column = i % columns, row = Math.floor(i / columns);
    watched.left = Math.min(watched.left, column); watched.right = Math.max(watched.right, column + 1);
    watched.top = Math.min(watched.top, row); watched.bottom = Math.max(watched.bottom, row + 1);
  });
  return {
    watched, flight: picture(columns, rows, (i) => (flight[i] ? [...ramp[flight[i] - 1], 255] : null)),
    // Over a picture: where little flies, it shows.
    sheerFlight: data.basemap ? picture(columns, rows, (i) => (flight[i] ? [...ramp[flight[i] - 1], 110 + Math.round(0.5 * flight[i])] : null)) : null,
    // The rim of each gap, and every fourth cell within.
    gaps: picture(columns, rows, (i) => (gap(i) && (!inner(i) || (i + 2 * Math.floor(i / columns)) % 4 === 0) ? [122, 62, 0, inner(i) ? 110 : 200] : null)),
    hasGaps: bits.length > 0
  };
})();
