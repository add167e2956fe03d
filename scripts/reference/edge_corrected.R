# Uniformly edge-corrected kernel intensity at the data points of two published tree patterns.
# Usage: Rscript edge_corrected.R DIR      (writes DIR/edge_corrected_*.txt; needs spatstat)
suppressMessages(library(spatstat))

folder <- commandArgs(trailingOnly = TRUE)[1]

write_reference <- function(pattern, name, sigma) {
  pattern <- unmark(pattern)
  window <- Window(pattern)
  stopifnot(is.rectangle(window))
  # A cutoff wider than the window leaves no term out.
  intensity <- density(pattern, sigma = sigma, at = "points", edge = TRUE, diggle = FALSE,
                       leaveoneout = FALSE, cutoff = 2 * diameter(window))
  lines <- c(
    "# window: west south east north, metres",
    paste(sprintf("%.17g", c(window$xrange[1], window$yrange[1], window$xrange[2], window$yrange[2])), collapse = " "),
    "# bandwidth, metres",
    sprintf("%.17g", sigma),
    "# x y intensity (points per square metre)",
    sprintf("%.17g %.17g %.17g", pattern$x, pattern$y, as.numeric(intensity)))
  writeLines(lines, file.path(folder, sprintf("edge_corrected_%s_%g.txt", name, sigma)))
}

write_reference(spruces, "spruces", 3)
write_reference(spruces, "spruces", 7)
write_reference(longleaf, "longleaf", 15)
