"""The cases that are notes: clock times, places in words, counts in words.

The site around them has a watch "avenue" at 1.8963 W, 52.2979 N on 2026-06-09 from 21:30 to 22:50, a route "brook"
along 1.8946 W, a square C4 of 25 m and a tree T1 (see habits_test.cpp).
"""
from text_tables import case

NOTES = 'squares = "plain_squares.geojson"\nroutes = "plain_routes.geojson"\ntrees = "plain_trees.csv"'


def notes(name, file, text, used, set_aside=0, findings=(), values=(), site=""):
    case(name, file, "passes", text, used, set_aside, findings, values, site, inputs=NOTES)


def add():
    notes("Clock times with the watch's name", "clock_and_watch.csv",
          "watch,time,lon,lat\navenue,21:46,-1.8956,52.2982\navenue,22.05,-1.8956,52.2982\n", 2, 0, [],
          ["0 time 2026-06-09T20:46:00Z", "1 time 2026-06-09T21:05:00Z"])
    notes("A twelve-hour clock in the evening, nothing else told", "twelve_hours.csv",
          "watch,time,lon,lat\navenue,9:46,-1.8956,52.2982\navenue,9.50pm,-1.8956,52.2982\n", 2, 0, ["time of the evening"],
          ["0 time 2026-06-09T20:46:00Z", "1 time 2026-06-09T20:50:00Z"])
    notes("Only a clock", "only_a_clock.csv", "time,lon,lat\n21:46,-1.8956,52.2982\n", 1, 0, ["date from the watches"],
          ["0 time 2026-06-09T20:46:00Z"])
    # 20 m by eye: 20 % of it along, 11.25°/sqrt 3 across, as one standard deviation of both axes.
    notes("Distance and direction from the station", "from_station.csv",
          "watch,time,distance,direction\navenue,21:46,20 m,NE\navenue,21:47,65 ft,090\n", 2, 0, ["accuracy was not told"],
          ["0 accuracy_m 3.2512", "1 watch avenue"], 'fields = { distance_m = "distance" }')
    notes("Counts in words", "counts.csv",
          "time,lon,lat,bats\n" + "".join(f"2026-06-09T21:4{i},-1.8956,52.2982,{words}\n" for i, words in
                                          enumerate(["one", "a pair", "3 bats", "2-3", "dozen", "1", "1", "1", "1"])) +
          "2026-06-09T21:55,-1.8956,52.2982,several\n", 9, 1, ["how many?", "range"],
          ["0 count 1", "1 count 2", "2 count 3", "3 count 2", "4 count 12"])
    notes("Squares of the printed map", "squares.csv",
          "date;clock;square;bearing\n9.6.2026;21:46;C4;SW\n9.6.2026;21:47;c 4;N\n", 2, 0, [],
          ["0 accuracy_m 7.2169", "1 bearing_deg 0"], 'date_order = "dmy"')
    notes("Beside a tree", "beside_trees.csv", "time,near_tree\n2026-06-09T21:46,T1\n2026-06-09T21:47,t1\n", 2, 0,
          ["accuracy was not told"], ["0 accuracy_m 5", "1 accuracy_m 5"])
    notes("British grid letters", "grid_letters.csv",
          "time,grid ref\n2026-06-09T21:46,SP 07216 66657\n2026-06-09T21:47,SP072666\n", 2, 0, ["too coarse to choose between trees"],
          ["0 accuracy_m 0.28868", "1 accuracy_m 28.868"])
    notes("Military grid letters", "mgrs.csv", "time,mgrs\n2026-06-09T21:46,30U WC 75312 94757\n", 1, 0, [],
          ["0 accuracy_m 0.28868"])
    notes("Towards a named route, and back from it", "towards.csv",
          "time,lon,lat,heading\n2026-06-09T21:46,-1.8956,52.2982,towards the brook\n2026-06-09T21:47,-1.8956,52.2982,from brook\n"
          "2026-06-09T21:48,-1.8956,52.2982,to the pub\n", 3, 0, ["unknown bearing"],
          ["0 bearing_deg 90", "1 bearing_deg 270", "2 bearing_deg -"])
    notes("Compass letters that mean east in German and west in French", "osten.csv",
          "time,lon,lat,bearing\n2026-06-09T21:46,-1.8956,52.2982,O\n2026-06-09T21:47,-1.8956,52.2982,Nordost\n", 2, 0,
          ["east or west?"], ["0 bearing_deg -", "1 bearing_deg 45"])
    notes("Past midnight in one evening", "past_midnight.csv",
          "watch,date,time,lon,lat\navenue,2026-06-09,22:45,-1.8956,52.2982\n", 1, 0, [], ["0 time 2026-06-09T21:45:00Z"])
