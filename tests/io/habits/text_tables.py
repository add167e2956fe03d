"""The cases that are text: CSV and its like, and GeoJSON."""

CASES = []


def case(name, file, layer, text, used=None, set_aside=0, findings=(), values=(), site="", stops="", encoding="utf-8",
         inputs=""):
    made = {"name": name, "file": file, "layer": layer, "site": site, "inputs": inputs,
            "bytes": text if isinstance(text, bytes) else text.encode(encoding)}
    if stops:
        made["stops"] = stops
    else:
        made.update(used=used, set_aside=set_aside, findings=sorted(findings), values=list(values))
    CASES.append(made)


# Trees ----------------------------------------------------------------------------------------------------------

case("German list: semicolons, decimal commas, girth, Windows code page, a stump", "baumliste.csv", "trees",
     "Baumnummer;lon;lat;Stammumfang;Baumhöhe;Zustand;Baumart\n"
     "B1;-1,8956;52,2980;130;12,5;gut;Erle\n"
     "B2;-1,8957;52,2981;94,2;9;mäßig;Weißdorn\n"
     "B3;-1,8958;52,2982;0;;;Baumstumpf\n",
     2, 1, ["no tree", "not UTF-8"],
     ["B1 dbh_cm 41.380", "B1 height_m 12.5", "B1 condition good", "B2 dbh_cm 29.985", "B2 condition fair",
      "B2 species Weißdorn"],
     'fields = { tree = "Baumnummer", dbh_cm = { from = "Stammumfang", girth = true }, height_m = "Baumhöhe", '
     'condition = { from = "Zustand", values = { gut = "good", "mäßig" = "fair" } }, species = "Baumart" }',
     encoding="cp1252")

case("French list: byte-order mark, circumference, a felled tree", "arbres.csv", "trees",
     "\ufeffid;lon;lat;circonférence (cm);essence;état\n"
     "101;-1,8956;52,298;157;Tilleul à grandes feuilles;bon\n"
     "102;-1,8957;52,2981;63;Aulne;abattu\n",
     1, 1, ["no tree"], ["101 dbh_cm 49.975", "101 species Tilleul à grandes feuilles"],
     'fields = { dbh_cm = { from = "circonférence (cm)", girth = true }, species = "essence" }')

case("Spanish list: Latin 1, an empty tree pit", "arbolado.csv", "trees",
     "id,lon,lat,especie,dbh,altura\n1,-1.8956,52.298,Álamo,35,14\n2,-1.8957,52.2981,Alcorque vacío,,\n",
     1, 1, ["no tree", "not UTF-8"], ["1 species Álamo", "1 height_m 14"],
     'fields = { species = "especie", height_m = "altura" }', encoding="latin-1")

case("Dutch list: tabs, Windows line ends, height as a range", "bomen.tab", "trees",
     "id\tlon\tlat\tboomsoort\thoogte\tdbh\r\n7\t-1.8956\t52.298\tEls\t12-15 m\t40\r\n8\t-1.8957\t52.2981\tlege plek\t\t\r\n",
     1, 1, ["no tree", "range"], ["7 height_m 12", "7 dbh_cm 40"],
     'fields = { height_m = "hoogte", species = "boomsoort" }')

case("Italian list: a stump under specie", "alberi.csv", "trees",
     "id;lon;lat;specie;dbh\n1;-1,8956;52,298;Ontano nero;45\n2;-1,8957;52,2981;Ceppaia;60\n",
     1, 1, ["no tree"], ["1 dbh_cm 45"])

case("Portuguese list: an empty pit", "arvores.csv", "trees",
     "id;lon;lat;espécie;dbh\n1;-1,8956;52,298;Amieiro;45\n2;-1,8957;52,2981;Caldeira vazia;\n",
     1, 1, ["no tree"], ["1 species Amieiro"], 'fields = { species = "espécie" }')

case("Danish list: fældet in capitals", "traeer.csv", "trees",
     "id;lon;lat;art;status;dbh\n1;-1,8956;52,298;Rødel;OK;45\n2;-1,8957;52,2981;Rødel;FÆLDET;30\n",
     1, 1, ["no tree"], ["1 species Rødel"], 'fields = { species = "art" }')

case("Swedish list in UTF-16", "trad.csv", "trees",
     "\ufeffid;lon;lat;trädart;dbh\n1;-1,8956;52,298;Klibbal;45\n2;-1,8957;52,2981;Stubbe;30\n".encode("utf-16-le"),
     1, 1, ["no tree"], ["1 species Klibbal", "1 dbh_cm 45"], 'fields = { species = "trädart" }')

case("Polish list: a stump", "drzewa.csv", "trees",
     "id;lon;lat;gatunek;dbh\n1;-1,8956;52,298;Olsza czarna;45\n2;-1,8957;52,2981;PNIAK;30\n",
     1, 1, ["no tree"], ["1 species Olsza czarna"], 'fields = { species = "gatunek" }')

case("Units behind the numbers", "units_behind.csv", "trees",
     "tree,lon,lat,dbh,height\n1,-1.8956,52.298,12 in,40 ft\n2,-1.8957,52.2981,0.4 m,1200 cm\n3,-1.8958,52.2982,350 mm,11\n",
     3, 0, [], ["1 dbh_cm 30.48", "1 height_m 12.192", "2 dbh_cm 40", "2 height_m 12", "3 dbh_cm 35"])

case("Inches and feet told by the header", "inches.csv", "trees",
     "Tree No.,lon,lat,DBH (in),Height (ft)\n1,-1.8956,52.298,16,45\n", 1, 0, [],
     ["1 dbh_cm 40.64", "1 height_m 13.716"])

case("Girth in metres told by the header", "girth_m.csv", "trees",
     "tree,lon,lat,girth (m)\n1,-1.8956,52.298,1.26\n", 1, 0, [], ["1 dbh_cm 40.107"])

case("Diameters in millimetres with thousands apart", "millimetres.csv", "trees",
     "tree;lon;lat;dbh mm\n1;-1,8956;52,298;1 234\n2;-1,8957;52,298;350\n", 2, 0, [], ["1 dbh_cm 123.4", "2 dbh_cm 35"])

case("Nought is unknown, and so is a question mark", "noughts.csv", "trees",
     "tree,lon,lat,dbh,height,condition\n1,-1.8956,52.298,0,0,?\n2,-1.8957,52.298,n/a,-,unknown\n", 2, 0, ["blank column"],
     ["1 dbh_cm -", "1 height_m -", "1 condition -", "2 dbh_cm -", "2 height_m -"])

case("Roughly, more than, less than", "roughly.csv", "trees",
     "tree,lon,lat,dbh,height\n1,-1.8956,52.298,about 40,>12\n2,-1.8957,52.298,<30,~9\n", 2, 0, ["only an upper end", "range"],
     ["1 dbh_cm 40", "1 height_m 12", "2 dbh_cm -", "2 height_m 9"])

case("The same row twice, and one number for two trees", "twice.csv", "trees",
     "tree,lon,lat,dbh\n1,-1.8956,52.298,40\n1,-1.8956,52.298,40\n2,-1.8957,52.298,30\n2,-1.8958,52.298,31\n",
     3, 1, ["identifier used twice", "the same tree twice"], ["2#4 dbh_cm 30", "2 dbh_cm 31"])

case("No numbers on the trees", "nameless.csv", "trees", "lon,lat,dbh\n-1.8956,52.298,40\n-1.8957,52.298,41\n", 2, 0, [],
     ["2 dbh_cm 40", "3 dbh_cm 41"])

case("Latitude and longitude swapped in one row of twelve", "swapped.csv", "trees",
     "tree,lon,lat\n" + "".join(f"{i},{-1.8956 - i / 10000:.4f},52.298\n" for i in range(11)) + "11,52.298,-1.8967\n",
     11, 1, ["swapped coordinates"], [])

case("Quoted cells with line ends, commas and quotes", "quoted.csv", "trees",
     'tree,lon,lat,species,notes\n1,-1.8956,52.298,"Alder, common","leans\nto the ""creek"""\n2,-1.8957,52.298,Ash,\n',
     2, 0, [], ["1 species Alder, common", "2 species Ash"])

case("Pipes between cells, and capitals", "pipes.psv", "trees",
     "TREE NO|LON|LAT|TRUNK DIAMETER CM\nA1|-1.8956|52.298|40\n", 1, 0, [], ["A1 dbh_cm 40"])

case("A cell too many in one row of ten", "shifted.csv", "trees",
     "tree,lon,lat,dbh\n" + "".join(f"{i},{-1.8956 - i / 10000:.4f},52.298,40\n" for i in range(9)) +
     "9,-1,8965,52.298,40\n", 9, 1, ["shifted cells"], [])

case("A quote that is never closed", "open_quote.csv", "trees",
     "tree,lon,lat,species\n" + "".join(f"{i},{-1.8956 - i / 10000:.4f},52.298,Ash\n" for i in range(9)) +
     '9,-1.8965,52.298,"Ash\n10,-1.8966,52.298,Ash\n', 10, 1, ["open quote"], ["10 species Ash"])

case("Old Macintosh line ends", "macintosh.csv", "trees", "tree,lon,lat,dbh\r1,-1.8956,52.298,40\r2,-1.8957,52.298,41\r",
     2, 0, [], ["2 dbh_cm 41"])

case("Blank lines, and a header cell that is empty", "blank.csv", "trees",
     "\n,tree,lon,lat,dbh\n\n1,A,-1.8956,52.298,40\n\n2,B,-1.8957,52.298,41\n\n", 2, 0, [], ["A dbh_cm 40", "B dbh_cm 41"])

case("Condition in codes, hollows in German", "codes.csv", "trees",
     "tree,lon,lat,cond,hohl\n1,-1.8956,52.298,1,ja\n2,-1.8957,52.298,3,nein\n3,-1.8958,52.298,9,nein\n", 3, 0,
     ["unknown condition"], ["1 condition good", "2 condition poor", "3 condition -", "1 has_hollow yes", "2 has_hollow no"],
     'fields = { condition = { from = "cond", values = { "1" = "good", "2" = "fair", "3" = "poor" } }, '
     'has_hollow = { from = "hohl", values = { ja = "yes", nein = "no" } } }')

case("A national grid in columns x and y", "eastings.csv", "trees",
     "tree,x,y,dbh\n1,407216.6,266657.8,40\n", 1, 0, ["transformation accuracy"], ["1 dbh_cm 40"], 'crs = "EPSG:27700"')

case("A diameter beyond any tree", "impossible.csv", "trees",
     "tree,lon,lat,dbh\n1,-1.8956,52.298,4000\n2,-1.8957,52.298,40\n", 2, 0, ["impossible dbh_cm"], ["1 dbh_cm -", "2 dbh_cm 40"])

case("GeoJSON with numbers as text and without some geometries", "council.geojson", "trees",
     '{"type": "FeatureCollection", "features": [' + ",".join(
         f'{{"type": "Feature", "properties": {{"id": {i}, "dbh": "4{i}", "species": null}}, '
         f'"geometry": {{"type": "Point", "coordinates": [{-1.8956 - i / 10000:.4f}, 52.298]}}}}' for i in range(1, 10)) +
     ', {"type": "Feature", "properties": {"id": 10, "dbh": "40"}, "geometry": null}]}',
     9, 1, ["blank column", "empty geometry"], ["1 dbh_cm 41", "9 dbh_cm 49"])

case("Only part of a list is wanted", "only.csv", "trees",
     "tree,lon,lat,status,dbh\n1,-1.8956,52.298,standing,40\n2,-1.8957,52.298,private,41\n3,-1.8958,52.298,standing,42\n",
     2, 0, [], ["1 dbh_cm 40", "3 dbh_cm 42"], "only = \"status = 'standing'\"")

case("A list with a header and nothing else", "nothing.csv", "trees", "tree,lon,lat,dbh\n", 0, 0, [], [])

case("Most rows without a place", "placeless.csv", "trees",
     "tree,lon,lat,dbh\n1,,,40\n2,,,41\n3,-1.8956,52.298,42\n", stops="2 of 3 rows (67 %)")

# Passes -----------------------------------------------------------------------------------------------------------

case("Times in UTC", "utc.csv", "passes", "time,lon,lat\n2026-06-09T20:46:46Z,-1.8956,52.2982\n", 1, 0, [],
     ["0 time 2026-06-09T20:46:46Z"])

case("Times with an offset, basic form", "offset.csv", "passes",
     "timestamp,longitude,latitude,heading\n20260609T214646+0100,-1.8956,52.2982,80\n", 1, 0, [],
     ["0 time 2026-06-09T20:46:46Z", "0 bearing_deg 80"])

case("Dates with points, clock with an h, decimal commas", "punkte.csv", "passes",
     "date;clock;lon;lat;bearing\n9.6.2026;21h46;-1,8956;52,2982;ONO\n13.6.2026;21:50;-1,8956;52,2982;SSW\n", 2, 0,
     ["east or west?"], ["0 time 2026-06-09T20:46:00Z", "1 bearing_deg 202.5"])

case("Dates of which day and month cannot be told apart", "ambiguous.csv", "passes",
     "date,time,lon,lat\n09/06/2026,21:46,-1.8956,52.2982\n", stops="date_order")

case("The same, with the order told", "told_order.csv", "passes",
     "date,time,lon,lat\n06/09/2026,21:46,-1.8956,52.2982\n", 1, 0, [], ["0 time 2026-06-09T20:46:00Z"], 'date_order = "mdy"')

case("Day first, shown by the 13th", "thirteenth.csv", "passes",
     "date,time,lon,lat\n09/06/2026,21:46,-1.8956,52.2982\n13/06/2026,21:46,-1.8956,52.2982\n", 2, 0,
     [], ["0 time 2026-06-09T20:46:00Z", "1 time 2026-06-13T20:46:00Z"])

case("A twelve-hour clock with pm", "pm.csv", "passes",
     "date,time,lon,lat,direction of flight\n2026-06-09,9:46 pm,-1.8956,52.2982,NE\n", 1, 0, [],
     ["0 time 2026-06-09T20:46:00Z", "0 bearing_deg 45"], 'fields = { bearing_deg = "direction of flight" }')

case("Compass words in full", "compass.csv", "passes",
     "time,lon,lat,bearing\n2026-06-09T21:46,-1.8956,52.2982,north-east\n2026-06-09T21:47,-1.8956,52.2982,South South West\n"
     "2026-06-09T21:48,-1.8956,52.2982,45°\n2026-06-09T21:49,-1.8956,52.2982,370\n", 4, 0, ["impossible bearing"],
     ["0 bearing_deg 45", "1 bearing_deg 202.5", "2 bearing_deg 45", "3 bearing_deg -"])

case("Whose place it is, in words", "whose.csv", "passes",
     "time,lon,lat,place of,behaviour\n2026-06-09T21:46,-1.8963,52.2979,me,feeding\n2026-06-09T21:47,-1.8963,52.2979,detector,commute\n"
     "2026-06-09T21:48,-1.8960,52.2980,bat,emerged\n", 3, 0, [],
     ["0 place_of observer", "1 place_of recorder", "2 place_of animal", "0 behaviour foraging", "2 behaviour emerging"])

case("A device that never found its place", "null_island.csv", "passes",
     "time,lon,lat\n" + "".join(f"2026-06-09T21:{40 + i}:00,-1.8956,52.298{i}\n" for i in range(9)) +
     "2026-06-09T21:55:00,0,0\n", 9, 1, ["coordinates (0, 0)"], [])

case("Flight heights in feet, counts", "heights.csv", "passes",
     "time,lon,lat,height ft,bats\n2026-06-09T21:46,-1.8956,52.2982,10,2\n", 1, 0, [], ["0 height_m 3.048", "0 count 2"])

case("GeoJSON passes", "passes.geojson", "passes",
     '{"type":"FeatureCollection","features":[{"type":"Feature","properties":{"time":"2026-06-09T21:46:46","count":2},'
     '"geometry":{"type":"Point","coordinates":[-1.8956,52.2982]}}]}', 1, 0, [], ["0 time 2026-06-09T20:46:46Z", "0 count 2"])

# Watches ----------------------------------------------------------------------------------------------------------

case("A watch past midnight, seen in feet", "midnight.csv", "watches",
     "station,lon,lat,date,start,end,farthest seen\navenue,-1.8963,52.2979,2026-06-09,21:30,00:20,200 ft\n", 1, 0, [],
     ["0 start 2026-06-09T20:30:00Z", "0 end 2026-06-09T23:20:00Z", "0 range_m 30.48"],
     'fields = { watch = "station", farthest_seen_m = { from = "farthest seen" } }')

case("Weather with its units", "weather.csv", "watches",
     "watch,lon,lat,date,start,end,range_m,temp_c,wind_ms,rain\n"
     "avenue,-1.8963,52.2979,2026-06-09,21:30,22:50,35,14 °C,2 m/s,no\n", 1, 0, [],
     ["0 range_m 35", "0 temp_c 14", "0 wind_ms 2", "0 rain no"])

case("A watch that nobody said how far it saw", "by_eye.csv", "watches",
     "watch,lon,lat,date,start,end\navenue,-1.8963,52.2979,2026-06-09,21:30,22:50\n", 1, 0, ["how far was not told"],
     ["0 range_m 20"])

case("Field of view in words", "view.csv", "watches",
     "watch,lon,lat,start,end,farthest_seen_m,look_deg,view_deg\n"
     "avenue,-1.8963,52.2979,2026-06-09T21:30,2026-06-09T22:50,70,NNE,120\n", 1, 0, [],
     ["0 look_deg 22.5", "0 view_deg 120", "0 range_m 35"])
