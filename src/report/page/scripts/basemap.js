// The picture behind the map, where there is one. It is faded, so that everything else stands out from it.
const basemap = (() => {
  if (!data.basemap) return null;
  const { west, north, cell, rows, columns } = data.basemap, image = new Image();
  image.src = data.basemap.image;
  return {
    ready: image.decode(),
    paint(view) {
      if (!image.complete) return;
      view.c.globalAlpha = 0.35;
      view.c.drawImage(image, view.x(west), view.y(north), columns * cell * view.scale, rows * cell * view.scale);
      view.c.globalAlpha = 1;
    }
  };
})();
