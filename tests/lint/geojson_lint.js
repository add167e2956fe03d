// Prints every fault that an independent checker finds in the GeoJSON files given, and ends with 1 where there is one.
const fs = require("fs");
const { getIssues } = require("@placemarkio/check-geojson");

let faults = 0;
for (const file of process.argv.slice(2)) {
  for (const issue of getIssues(fs.readFileSync(file, "utf8"))) {
    console.log(`${file}: at character ${issue.from}: ${issue.message}`);
    faults += 1;
  }
}
process.exit(faults > 0 ? 1 : 0);
