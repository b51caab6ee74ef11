package draw

import (
	"math"
	"strconv"
)

// The samples are invented: shapes like those of a pale piece, in round
// numbers, to have something to draw.

var samplePen = Pen{Number: func(x float64, decimals int) string { return strconv.FormatFloat(x, 'f', decimals, 64) }}

func sampleCourse() Course {
	c := Course{
		ID: "course", Title: "The course", Says: "Moisture rises to 44 % in the steep and falls to 4 % on the kiln.",
		FromH: 0, ToH: 168, HourWord: "hours since cast-in",
		Stages: []Span{{0, 44, "", "steep"}, {44, 144, "", "germination"}, {144, 168, "", "kiln"}},
		Steps: []Span{
			{0, 8, Waves, "immersion"}, {8, 20, Plain, "air rest"}, {20, 26, Waves, "immersion"}, {26, 38, Plain, "air rest"},
			{38, 44, Dots, "couch"}, {44, 144, Strokes, "growth"}, {144, 168, Lines, "kiln"},
		},
		Moments: []Moment{{152, "break"}},
	}
	n := 1200
	mean, low, high, temp, on, chit, short := blank(n), blank(n), blank(n), blank(n), blank(n), blank(n), blank(n)
	for i := range n {
		t := 168 * float64(i) / float64(n-1)
		c.TimeH = append(c.TimeH, t)
		switch {
		case t < 44:
			mean[i] = 12 + 33*(1-math.Exp(-t/14))
			temp[i] = 14 + 2*math.Sin(t/6)
			chit[i] = 100 / (1 + math.Exp(-(t-32)/3))
		case t < 144:
			mean[i] = 44 - 0.03*(t-44)
			low[i], high[i] = mean[i]-0.3, mean[i]+0.3
			temp[i], on[i] = 17+math.Sin(t/12), 14
			chit[i] = 98
			short[i] = 80 * (t - 44) / 100
		default:
			k := (t - 144) / 24
			mean[i] = 4 + 37*math.Exp(-4*k*k)
			low[i], high[i] = mean[i]*(1-0.3*k*(1.2-k)), mean[i]*(1+0.6*k*(1.2-k))
			temp[i], on[i] = 22+60*k*k, 60+25*k
		}
	}
	c.Panels = []Panel{
		{Title: "moisture, % wb", Decimals: 1, FromZero: true,
			Lines: []Line{{"mean", mean, Solid}},
			Bands: []Band{{Low: low, High: high, LowWord: "driest", HighWord: "wettest", Word: "wettest to driest layer"}}},
		{Title: "temperature, °C", Decimals: 1, Lines: []Line{{"grain", temp, Solid}, {"air-on", on, Dashed}}},
		{Title: "growth, %", FromZero: true, Lines: []Line{{"chitted", chit, Solid}, {"acrospire", short, Accent}}},
	}
	return c
}

func sampleBed() Bed {
	b := Bed{
		ID: "bed", Title: "Moisture on the kiln", Says: "The floor dries first.", HourWord: "hours since cast-in",
		TopWord: "top", FloorWord: "floor", FromH: 144, ToH: 168, Layers: 20, Decimals: 1,
		Levels: []float64{5, 8, 12, 20, 30, 40}, Break: 152, BreakWord: "break", Turns: []float64{}, TurnWord: "turned",
	}
	for i := range 145 {
		t := 144 + float64(i)/6
		b.TimeH = append(b.TimeH, t)
		for layer := range b.Layers {
			front := (t - 144) / 10 * 20
			b.Values = append(b.Values, 3.5+40/(1+math.Exp((front-float64(layer)-6)/3)))
		}
	}
	return b
}

func sampleMarks() Marks {
	nan := math.NaN()
	return Marks{
		ID: "marks", Title: "Against the specification", Says: "One figure of three lies outside.",
		Head: []string{"figure", "found", "least", "most", "verdict"},
		Rows: []Mark{
			{"extract, fine", "81.2 % dm, passes", "passes", 81.2, 80.2, 82.2, 80, nan, 1, false, Hump{}},
			{"S/T (Kolbach)", "46 %, fails by 2", "fails", 46, 42, 50, 38, 44, 0, true, Hump{From: 40, To: 52, Height: []float64{0, 0.6, 1, 0.6, 0}}},
			{"colour", "3.4 EBC, passes", "passes", 3.4, nan, nan, nan, 4, 1, false, Hump{}},
		},
	}
}

func sampleFlow() Flow {
	return Flow{
		ID: "flow", Title: "Dry matter", Says: "Of 100 kg of dry matter 91 leave as malt.",
		Head: []string{"line", "kg", "share"}, Decimals: 0, Whole: 1000,
		Bars: []Bar{
			{"barley as cast", 1000, true, Plain}, {"leached", -9, false, Plain}, {"respired", -48, false, Plain},
			{"culms", -35, false, Plain}, {"malt", 908, true, Cross},
		},
	}
}

func sampleGrowth() Growth {
	return Growth{
		ID: "growth", Title: "Acrospires", Says: "Most corns have grown three quarters or more.", Head: []string{"acrospire", "corns"},
		Classes: []Grown{{"none", 0.03, 0}, {"to ¼", 0.02, 0.2}, {"to ½", 0.06, 0.45}, {"to ¾", 0.31, 0.7}, {"to 1", 0.52, 0.95}, {"over", 0.06, 1.12}},
	}
}

func blank(n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = math.NaN()
	}
	return out
}

// sampleYears is a figure through three seasons, one of them unknown.
func sampleYears() Years {
	nan := math.NaN()
	return Years{
		ID: "years", Title: "Season by season", Says: "The mean of each season.", Head: []string{"figure", "2024", "2025", "2026"}, Seasons: []string{"2024", "2025", "2026"},
		Rows: []YearRow{{Name: "protein, % dm", Value: []float64{10.2, nan, 10.7}, Low: []float64{10, nan, nan}, High: []float64{10.4, nan, nan}, Decimals: 1}},
	}
}

// sampleMap is a district with an outline, one that is a point, and one whose
// share is not shown.
func sampleMap() Map {
	return Map{
		ID: "map", Title: "Where", Says: "The darker, the more is refused.", Head: []string{"district", "refused"},
		Places: []MapPlace{
			{Name: "Hallow", X: []float64{0, 4, 4, 0}, Y: []float64{0, 0, 3, 3}, Share: 0.4, Word: "40 %"},
			{Name: "Stane & Fell", X: []float64{6}, Y: []float64{2}, Share: 0.1, Word: "10 %"},
			{Name: "Tern Rock", X: []float64{4, 8, 8}, Y: []float64{0, 0, 1}, Share: math.NaN(), Word: "–"},
		},
	}
}

func sampleRules() Rules {
	return Rules{
		ID: "rules", Title: "Scores", Says: "Old stands at zero.", Words: []string{"grower", "brewer"}, Zero: "Old", Decimals: 1,
		Head: []string{"variety", "grower", "low", "high", "brewer", "low", "high"},
		Rows: []Ruled{
			{"New", []RuleMark{{1, 0.5, 1.5, false}, {-0.4, -1, 0.2, true}}},
			{"Newer", []RuleMark{{0.2, -0.3, 0.7, false}, {math.NaN(), math.NaN(), math.NaN(), false}}},
		},
	}
}

func sampleScatter() Scatter {
	return Scatter{
		ID: "scatter", Title: "Which wins where", Says: "New does well at the quay.", Across: "axis 1", Up: "axis 2", Decimals: 1, Head: []string{"", "axis 1", "axis 2"},
		Dots: []Dot{{"New", 1, 0.5, false, false, ""}, {"Old", -1, 0.1, false, true, ""}, {"Quay", 0.8, 0.6, true, false, ""}, {"lost", math.NaN(), 0, false, false, ""}},
	}
}

func sampleEnds() Ends {
	return Ends{
		ID: "ends", Title: "Candidates", Says: "One goes on, one is held, one ends.", Head: []string{"candidate", "year", "reason"},
		Rows: [][]string{{"New", "2020", "yields"}, {"Newer", "2021", "haze"}, {"Newest", "2022", "on the list"}},
		Lines: []EndLine{
			{"New", "A × B", 2016, []EndStep{{2019, "early", "plump", Onward}, {2020, "yield", "yields and malts; one more crop", Held}}},
			{"Newer", "A × C", 2017, []EndStep{{2021, "pilot", "haze", Dropped}}},
			{"Newest", "B × C", 2012, []EndStep{{2022, "plant", "on the list", Released}}},
		},
	}
}

// sampleKeeping is a silo that falls in time, one that outlasts the axis, and one
// of which nothing is known.
func sampleKeeping() Keeping {
	nan := math.NaN()
	return Keeping{
		ID: "keeping", Title: "How long they keep", Says: "Silo 3 falls first.", Axis: "days from today",
		Head: []string{"silo", "95 %", "early", "late", "90 %", "early", "late", "planned"},
		Rows: []Kept{
			{"3", []Fall{{"95 %: 75 d", 75, 28, 129}, {"90 %: 130 d", 130, 76, 195}}, 136, "in 136 d", ""},
			{"4 & 5", []Fall{{"95 %: 900 d", 900, 700, 1200}, {"90 %", nan, nan, nan}}, nan, "", ""},
			{"9", []Fall{{"", nan, nan, nan}, {"", nan, nan, nan}}, nan, "", "nobody counted"},
		},
	}
}

// sampleSections is a silo as it was read, with two sensors close together and one
// whose place is not known, and as it will be.
func sampleSections() Sections {
	return Sections{
		ID: "sections", Title: "The silo", Says: "It is warmest in the middle.", Depth: "m", Head: []string{"when", "depth", "temperature", "moisture"},
		Cuts: []Section{
			{"read", []DepthMark{
				{0.5, "5.5", "19.1 °C", []string{"19.1", "14.3"}, true}, {0.1, "1.1", "16.6 °C", []string{"16.6", "14.7"}, false},
				{0.52, "5.7", "19.0 °C", []string{"19.0", "–"}, false}, {math.NaN(), "–", "lost", []string{"15.0", "–"}, false},
			}},
			{"in 30 d", []DepthMark{{0.9, "9.9", "12.0 °C", []string{"12.0", "14.3"}, false}}},
		},
	}
}

func sampleOrigin() Origin {
	return Origin{
		ID: "behind", Title: "Made of", Says: "An arm for each delivery.", Head: []string{"delivery", "share", "least", "most", "dry matter"},
		Arms: []Arm{
			{Word: "delivery A", Figure: "60 % (35 to 80)", Amount: "6 t", Share: 0.6, Least: 0.35, Most: 0.8},
			{Word: "delivery B", Figure: "39 % (0 to 65)", Amount: "3.9 t", Share: 0.39, Most: 0.65},
			{Word: "delivery C & D", Figure: "1 % (0 to 2)", Amount: "0.1 t", Share: 0.01, Most: 0.02},
		},
	}
}
