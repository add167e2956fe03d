// How each kind of thing is drawn: shape as well as colour, so that grey prints and colour-blind readers tell them apart.
const ink = "#1c2a2e", white = "#ffffff";
const stateSigns = [
  { fill: "#12705a", edge: white, size: 5, trace: (c, x, y, r) => { c.moveTo(x + r, y); c.arc(x, y, r, 0, 7); } },
  { fill: "#f2b01e", edge: ink, size: 6, trace: (c, x, y, r) => { c.moveTo(x, y - r); c.lineTo(x + r, y); c.lineTo(x, y + r); c.lineTo(x - r, y); c.closePath(); } },
  { fill: null, edge: "#4b5a5f", size: 3.5, trace: (c, x, y, r) => { c.moveTo(x + r, y); c.arc(x, y, r, 0, 7); } },
  { fill: null, edge: "#6a4a42", size: 3, trace: (c, x, y, r) => { c.moveTo(x - r, y - r); c.lineTo(x + r, y + r); c.moveTo(x + r, y - r); c.lineTo(x - r, y + r); } }
];
const dotColours = [[18, 112, 90], [200, 130, 0], [120, 134, 140], [140, 110, 100]];

function drawSign(c, state, x, y, r) {
  const sign = stateSigns[state];
  c.beginPath();
  sign.trace(c, x, y, r);
  if (sign.fill) { c.fillStyle = sign.fill; c.fill(); }
  c.lineWidth = sign.fill ? 1 : 1.4;
  c.strokeStyle = sign.edge;
  c.stroke();
}

function drawSite(c, x, y, text) {
  c.font = "600 14px sans-serif";
  c.textAlign = "center";
  c.textBaseline = "middle";
  const half = Math.max(10, c.measureText(text).width / 2 + 4);
  c.fillStyle = "#a8321a"; c.strokeStyle = white; c.lineWidth = 2;
  c.fillRect(x - half, y - 10, 2 * half, 20);
  c.strokeRect(x - half, y - 10, 2 * half, 20);
  c.fillStyle = white;
  c.fillText(text, x, y + 1);
}

function drawLamp(c, x, y) {
  c.beginPath();
  for (let i = 0; i < 8; ++i) {
    const a = (i * Math.PI) / 4;
    c.moveTo(x + 3 * Math.cos(a), y + 3 * Math.sin(a));
    c.lineTo(x + 7 * Math.cos(a), y + 7 * Math.sin(a));
  }
  c.strokeStyle = ink; c.lineWidth = 1.3; c.stroke();
  c.beginPath(); c.arc(x, y, 3.2, 0, 7); c.fillStyle = "#ffe27a"; c.fill(); c.stroke();
}

function drawRoost(c, x, y) {
  c.beginPath(); c.arc(x, y, 7, Math.PI, 0); c.closePath();
  c.fillStyle = ink; c.fill(); c.strokeStyle = white; c.lineWidth = 1.5; c.stroke();
}

function drawBox(c, x, y) {
  c.fillStyle = white; c.strokeStyle = ink; c.lineWidth = 1.5;
  c.fillRect(x - 5, y - 6, 10, 12); c.strokeRect(x - 5, y - 6, 10, 12);
  c.beginPath(); c.moveTo(x - 3, y + 3.5); c.lineTo(x + 3, y + 3.5); c.stroke();
}

function drawStation(c, x, y) {
  c.beginPath(); c.moveTo(x, y - 7); c.lineTo(x + 6.5, y + 5); c.lineTo(x - 6.5, y + 5); c.closePath();
  c.fillStyle = white; c.fill(); c.strokeStyle = ink; c.lineWidth = 2; c.stroke();
}

/// Slanting lines on nothing.
function hatching(colour, step, width) {
  const canvas = make("canvas", { width: step, height: step }), c = canvas.getContext("2d");
  c.strokeStyle = colour; c.lineWidth = width;
  c.beginPath();
  for (const shift of [-step, 0, step]) { c.moveTo(shift - 1, step + 1); c.lineTo(shift + step + 1, -1); }
  c.stroke();
  return canvas;
}
const notWatched = hatching("#c9c4b4", 8, 1), notWatchedOnPicture = hatching("rgba(60, 70, 74, .38)", 8, 1), keepAway = hatching("rgba(122, 62, 0, .55)", 6, 1.2);

/// A line with a light edge, so that it stands out on dark and light ground.
function strokeCased(c, colour, width, casing = 2) {
  c.lineJoin = c.lineCap = "round";
  c.lineWidth = width + 2 * casing; c.strokeStyle = "rgba(255, 255, 255, .9)"; c.stroke();
  c.lineWidth = width; c.strokeStyle = colour; c.stroke();
}
